"""Steps to text: lowering, safe comments, the writer.

    step       what happens, in no dialect: approach, cut, cycle, dwell (`planner.steps`)
    lower      to turn steps that a dialect can't say into those that it can (`lowering`)
    spell      to make one step the blocks of a dialect by its patterns (`spelling`)
    frame      the lines round the steps: head, tool calls, end
    repeat     like grooves at odd places in fewer blocks

What no pattern can say is collected and refused in one message (`writer`).
"""
