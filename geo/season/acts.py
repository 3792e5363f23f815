"""What may be done to a block besides spraying, as the diary names it."""

# Each act, and the organs it is done to. What it is worth stands in the table ``epidemic``.
ACTS: dict[str, tuple[str, ...]] = {
    "panicle removal": ("panicle",),
    "leaf removal": ("leaf",),
    "washing": ("panicle", "leaf", "fruit"),
}
WASHING = "washing"
# A row of the diary whose material we do not know: it protects nothing, and keeps people out.
UNKNOWN_SPRAY = "unknown material"
