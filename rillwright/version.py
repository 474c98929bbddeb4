"""The version of the tool, as it stands in records, in the ledger and in the package."""

TOOL_VERSION = "0.1.0"
