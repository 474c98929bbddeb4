"""The shop file: TOML text to a checked `Shop`, with the defaults where it is silent."""
