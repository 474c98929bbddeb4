"""The commands, one module each: options in, exit status out.

A module holds the command's words (arguments, options, help text) and the order of its steps; what is done stands
in the room outside, what is printed in `console`. Options that several share stand in `rillwright.options`, which also
makes the `settings` of them. Libraries are loaded inside a command, so that `--help` answers at once.

    exit status   0 done, 1 refused or differing, 2 a wrong call or a file that can't be read
    stdout        results, or with --json one document and nothing else; messages go to stderr

Each module hands out one `click` command, named in `rillwright.cli.COMMANDS`.
"""
