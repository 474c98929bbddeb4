"""The part: from a folded profile to lands, bores and recesses, each classified and measured."""
