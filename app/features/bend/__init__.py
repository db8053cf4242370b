"""Through the bend: both knees from standing tall to the deepest crouch."""
