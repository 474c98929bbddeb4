"""The shop file: TOML text to a checked `Shop`, with what stands in where it is silent."""
