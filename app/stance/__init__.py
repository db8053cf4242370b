"""What a posture means: findings, their causes, and what each binding needs."""
