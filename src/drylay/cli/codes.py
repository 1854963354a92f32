"""What the command line's exit codes mean."""

FINE = 0
STOPPED = 1
UNUSABLE = 2
OUR_FAULT = 3
READER_GONE = 141
INTERRUPTED = 130

MEANINGS = {
    FINE: "done, and nothing stops it",
    STOPPED: "done, but a stop stands: a blocked plan, an audit stop, a failed plugin, "
    "a cell that misses",
    UNUSABLE: "wrong use, or an input that cannot be used: nothing was made",
    OUR_FAULT: "a fault in drylay itself: please report it",
    INTERRUPTED: "interrupted at the keyboard",
    READER_GONE: "whoever was reading the output went away",
}
