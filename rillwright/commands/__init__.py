"""The commands, one module each: what was typed in, exit status out.

A module's `run` holds the order of a command's steps; what others need too stands in the room outside, what is printed
in `console`. How a command is typed, and its help page, stand in `rillwright.calls`; options that several share in
`rillwright.options`, from which `rillwright.given` makes the `settings`.

    exit status   0 done, 1 refused or differing, 2 a wrong call or a file that can't be read
    stdout        results, or with --json one document and nothing else; messages go to stderr
"""
