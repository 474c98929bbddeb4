"""Drawing -> part: reads a DXF and recognises a turned part and its grooves."""
