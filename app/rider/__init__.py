"""What is known of a rider: inputs, set-up, board, wedge, parts and trials."""
