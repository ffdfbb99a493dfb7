"""Values that break programs: as words of a command line, as values of TOML, as bytes of a file."""

from __future__ import annotations

from random import Random

#: Characters that steer a terminal, turn the direction of a text, end a line or are none at all.
CHARACTERS = (
    *("\x00", "\x07", "\x08", "\x0b", "\x0c", "\r", "\n", "\t", "\x1b[31m", "\x1b]0;x\x07"),
    *("\x7f", "\x85", "\x9b31m", "\xa0", "\xad", "\u200b", "\u200f", "\u2028", "\u2029"),
    *("\u202e", "\u2066", "\ufeff", "\ufffe", "\ue000", "\U000e0041", "\u0301" * 40),
    *("\U0001f469\u200d\U0001f52c", "\u0130", "\u1e9e", "\uff11", "\u0661", "\u00bd"),
)
#: A byte of a command line that is no text.
SURROGATE = "\udcff"
#: Words that are taken for numbers, sizes, paths or code somewhere.
WORDS = (
    *("", " ", "\t", "-", "--", "-1", "0", "-0", "-0.0", "0.0", "1", "007", "00000000000000009"),
    *("1e-300", "1e300", "1e999", "-1e999", "nan", "NaN", "-nan", "inf", "-inf", "Infinity"),
    *("1_000", "0x10", "1e5", "1E+2", "1,5", "1.5.2", "1/0", "0/0", "1/4/4", "9" * 30, "9" * 5000),
    *("1000000000", "2147483648", "-2147483649", "9223372036854775808", "0.000001", "0.5"),
    *("1e-300in", "0.000001in", "1e300 in", "6in6in6in", "0in", "-0in", "1/0in", "999999999999ft"),
    *("1e9 mm", "0.0000001 mm", "4/4", "0/4", "99/4", "100/4", "1e9%", "-5%", "0.0%", "nan%"),
    *("-500F", "1e9F", "68F,40%", "68F,200%", "nanF,40%", "68F,nan%", "68F,", ",40%", ",", ",,,"),
    *("20 lb/ft", "1e300 lb", "0 lb", "1e-300 lb/ft", "nan lb", "=1+1", "@SUM(A1)", "+1", "'"),
    *('"', "''", "%s", "{0}", "${HOME}", "$(id)", "`id`", "; drop table species", "' or 1=1 --"),
    *("../../../etc/passwd", "/dev/zero", "/dev/stdin", "/dev/full", "/", ".", "~", "~root", "*"),
    *(
        "<script>",
        "<b>",
        "&amp;",
        "|",
        "\\",
        "[x](javascript:y)",
        "x" * 300,
        "x" * 5000,
        "a " * 999,
    ),
    *("true", "None", "null", "[]", "{}", "2024-01-01", "9999-99-99", "0000-00-00", "green", "all"),
    *("1 < 2", "density_kg_m3 > nan", "density_kg_m3 > 1e999", "density_kg_m3", "price > -1"),
    *("not", "and", "(" * 200, "a=b", "=", "heated_to=nan", "heated_to=1e300", "band_pct=-1"),
    *("KEY=VALUE", "white oak=teak", "=teak", "white oak=", "Savannah", "white oak", "cherry"),
    *(
        "/heated-house",
        "Duluth/heated-house/13",
        "Duluth//",
        "90,180",
        "1e300,0",
        "nan,nan",
        "-91,0",
    ),
    *("5in quarter", "5in 90", "5in nan", "5in -1", "4/4 x 6 x 8ft x 1000000000 ash", "4/4 x 6"),
    *("#8", "#999", "#-1", "1/4in", "10d", "9d9", "January", "13", "wood", "meranti", "oak"),
)
#: Values of TOML, as they stand behind the sign.
TOML = (
    *("nan", "-nan", "inf", "-inf", "0", "-0.0", "-1", "1", "0.5", "1e-300", "1e300", "1e999"),
    *("1000000000", "9223372036854775807", "1" + "0" * 30, "1" + "0" * 5000, "0x7f", "0b1", "1_0"),
    *('""', '" "', '"x"', '"' + "x" * 300 + '"', '"' + "x" * 100000 + '"', '"nan"', '"inf"'),
    *('"1e-300 in"', '"0.000001 in"', '"1e300 in"', '"6in6in6in"', '"007"', '"1/0"', '"-0.0"'),
    *('"\\u0000"', '"\\u001b[31m"', '"\\u202e"', '"\\u0085"', '"\\u2028"', '"\\U0001F600"'),
    *('"a\\tb"', '"a\\nb"', '"\\ufeff"', '"\\u00bd in"', '"=1+1"', '"<script>"', '"a|b"'),
    *('"/dev/zero"', '"/dev/full"', '"../x"', '"/"', '"."', '"a\\u0000b"', '"~nobody/x"'),
    *('"white oak"', '"Savannah"', '"heated-house"', '"green"', '"4/4"', '"5 in"', '"68F,40%"'),
    *("true", "false", "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z", "0001-01-01"),
    *(
        "[]",
        "[1, 2]",
        '["x"]',
        "[[]]",
        "[" * 90 + "]" * 90,
        "[{}]",
        "{}",
        "{ a = 1 }",
        "{ name = 1 }",
    ),
    *("{ expected = nan, low = 1, high = 2 }", "{ expected = 5, low = 9, high = 1 }"),
    *("'''\nx\n'''", '{ name = "x", x = { x = { x = 1 } } }', "[[1, 2], [3]]", "['', '']"),
)


def word(random: Random) -> str:
    """A hostile word of a command line, now and then one of several put together."""
    drawn = random.random()
    if drawn < 0.7:
        return random.choice(WORDS)
    if drawn < 0.8:
        return random.choice(CHARACTERS)
    if drawn < 0.83:
        return SURROGATE + random.choice(WORDS)
    return random.choice(WORDS) + random.choice(CHARACTERS) + random.choice(WORDS)


def twisted(text: str, random: Random) -> str:
    """A word that is right but for a hostile character, a sign or an end that is cut off."""
    at = random.randint(0, len(text))
    drawn = random.random()
    if drawn < 0.5:
        return text[:at] + random.choice(CHARACTERS) + text[at:]
    if drawn < 0.6:
        return text[:at]
    if drawn < 0.7:
        return text[:at] + text
    if drawn < 0.8:
        return text.upper() if random.random() < 0.5 else text.swapcase()
    if drawn < 0.9:
        return text[:at] + random.choice("0123456789.,-/eE%'\"") + text[at + 1 :]
    return random.choice(("-", "00", " ", "+", "=")) + text


def broken(data: bytes, random: Random) -> bytes:
    """Bytes of which some are others, gone, doubled or put elsewhere."""
    made = bytearray(data)
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        at = random.randint(0, len(made))
        match random.randrange(8):
            case 0 if at < len(made):
                made[at] ^= 1 << random.randrange(8)
            case 1:
                del made[at : at + random.choice((1, 1, 4, 40))]
            case 2:
                made[at:at] = bytes(random.randrange(256) for _ in range(random.choice((1, 3))))
            case 3:
                made[at:at] = random.choice(CHARACTERS).encode()
            case 4:
                del made[at:]
            case 5:
                made[at:at] = made[at : at + random.choice((10, 200))]
            case 6:
                made[at:at] = random.choice((b"\xff", b"\xed\xa0\x80", b"\x00", b'"', b"\r", b"["))
            case _:
                made[:0] = random.choice((b"\xef\xbb\xbf", b"\xff\xfe", b"\x1f\x8b", b"PK\x03\x04"))
    return bytes(made)


def lines_changed(text: str, random: Random) -> str:
    """Lines of which one is gone, twice there, moved, or has another word in it."""
    lines = text.split("\n")
    at = random.randrange(len(lines))
    match random.randrange(6):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[random.randrange(len(lines))])
        case 2:
            random.shuffle(lines)
        case 3:
            words = lines[at].split(" ")
            words[random.randrange(len(words))] = random.choice(WORDS)
            lines[at] = " ".join(words)
        case 4:
            lines[at] = twisted(lines[at], random)
        case _:
            lines[at] = random.choice(WORDS)
    return "\n".join(lines)


def cells_changed(text: str, random: Random) -> str:
    """A CSV table with a cell, a heading, a row or a column that is another."""
    lines = text.split("\n")
    rows = [n for n, line in enumerate(lines) if line and not line.startswith("#")]
    if not rows:
        return text
    at = rows[0] if random.random() < 0.15 else random.choice(rows)
    cells = lines[at].split(",")
    column = random.randrange(len(cells))
    match random.randrange(9):
        case 0 | 1 | 2 | 3:
            drawn = word(random).replace(SURROGATE, "")
            quoted = '"' + drawn.replace('"', '""') + '"'
            cells[column] = quoted if random.random() < 0.8 else drawn
        case 4:
            cells[column] = twisted(cells[column], random)
        case 5:
            del cells[column]
        case 6:
            cells.insert(column, cells[random.randrange(len(cells))])
        case 7:
            lines.insert(at, lines[at])
        case _:
            return text.replace(",", random.choice((";", "\t", "|", ",,", ",\r")))
    lines[at] = ",".join(cells)
    return "\n".join(lines)
