"""What does it: sloped parts and their stacks, printed wedges, the board under them."""
