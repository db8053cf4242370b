"""What the pages under the drawings say, in numbers and words: no Qt."""
