"""Whether two files of values are the same but for what differs from processor to processor.

    python3 same.py COMMITTED FRESH

The sum behind what leaves is of large terms with changing signs: its last digits are those of the vector instructions at
hand. What leaves is right to 1e-10 of the tube, a hundredth of the least that is followed; `root` is one over its square
root, so that far down its digits follow from that. Everything else has the digits that are printed.
"""

import json
import sys

LEAVES = 1e-10


def same(a, b, key=None):
    if isinstance(a, dict):
        return isinstance(b, dict) and a.keys() == b.keys() and all(same(a[k], b[k], k) for k in a)
    if isinstance(a, list):
        return isinstance(b, list) and len(a) == len(b) and all(same(x, y, key) for x, y in zip(a, b))
    if key == "root":
        a, b = a**-2, b**-2
    if key in ("root", "out"):
        # Seven and six digits are printed.
        return abs(a - b) <= LEAVES + 2e-6 * abs(a)
    return a == b


committed, fresh = (json.load(open(path)) for path in sys.argv[1:])
sys.exit(not same(committed, fresh))
