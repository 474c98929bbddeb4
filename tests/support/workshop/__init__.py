"""Sheets of a small workshop that draws in three tongues, with its own habits; its parts and writer are its own."""
