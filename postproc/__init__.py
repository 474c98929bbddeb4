"""Plan <-> program: dialects that spell steps, the reader that takes a program back, and the metal left."""
