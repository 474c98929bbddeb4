"""The drop folder: watch, queue, workers, ledger, and what happens to older programs."""
