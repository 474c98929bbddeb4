"""The tool itself: command line, jobs, comparison, drop folder, job sheets."""
