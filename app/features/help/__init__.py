"""The help inside the program: words with drawings, the model, sources, and the caution."""
