"""Helpers that tests share: parts as values, drawings of them, independent oracles."""
