"""Qt pieces that know nothing of stances."""
