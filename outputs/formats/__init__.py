"""One file a format; a writer gets finished objects and computes no shop number. Uses drawing and the solids."""
