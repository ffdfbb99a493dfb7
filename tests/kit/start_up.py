"""What a look-up may load: the packages it must leave alone, and a program that lists them."""

HEAVY = {
    *("pandas", "pandera", "numpy", "scipy", "matplotlib", "pyarrow", "pydantic"),
    *("rich", "pint", "polars", "rapidfuzz"),
}


PROBE = """
import sys
from woodref.cli.main import run
code = run(sys.argv[1:])
print("loaded:", code, *sorted({m.partition(".")[0] for m in sys.modules}))
"""
