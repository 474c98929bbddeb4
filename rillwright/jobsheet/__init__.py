"""The job sheet: a record as one page, with pictures, tables and the program to step through."""
