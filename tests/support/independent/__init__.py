"""Drawings the reader was not tuned to: parts with known grooves, views of them, and what the reader made of them.

ink       strokes on a sheet, and moving, turning and scaling them
parts     random turned parts with the grooves they truly have
views     a part drawn as a shop's draughtsman would, tidy or not
outcomes  what came of reading a sheet: right, wrong, refused, crashed
"""
