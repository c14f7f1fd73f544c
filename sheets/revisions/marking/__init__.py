"""Two drawn sets in, the clouds, triangles and bars that mark what changed out."""
