"""Opening the file: from DXF bytes to the strokes, texts and dimensions of a `Sheet`."""
