"""From a posture to marks on paper: no Qt, and no leg trigonometry."""
