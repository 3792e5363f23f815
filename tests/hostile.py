"""What people may write into a name or a note, with or without meaning harm: each stays text."""

# Kinds of injection as in OWASP's lists (cross-site scripting; CWE-1236 for formulas; CWE-91 for
# XML), with characters that formats stumble over.
PAYLOADS = (
    "<img src=x onerror=alert(1)>",
    "</script><script>alert(1)</script>",
    "{{ 7 * 7 }}",
    '" onmouseover="alert(1)',
    "javascript:alert(1)",
    "]]><!ENTITY x SYSTEM 'file:///etc/passwd'>&x;",
    "<!DOCTYPE kml [<!ENTITY a 'b'>]>",
    '=HYPERLINK("http://example.invalid","x")',
    "+1+cmd|' /C calc'!A0",
    "@SUM(1+1)",
    "-2+3",
    "＝1+1",
    "'; DROP TABLE blocks; --",
    "line one\r\nline two\ttabbed",
    "right-to-left \u202e gnp.exe",
    "bell \u0007 and null-like \u0001",
    # Escape sequences of a terminal (ECMA-48): red letters, another title (CWE-150).
    "\u001b[31mred \u001b]0;title\u0007 \u009b5m",
    "ünïcödé हिन्दी 芒果 🥭",
    "../../outside",
    "x" * 5_000,
)
