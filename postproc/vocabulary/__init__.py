"""Words that reader and writer share: what they ask for, their numbers, the grooving cycle as moves."""
