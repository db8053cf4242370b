"""What assistive programs are told of widgets that Qt has no fitting role for."""
