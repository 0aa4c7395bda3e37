"""Run the benchmarks that are named, or all of them."""

from __future__ import annotations

import importlib
import sys

NAMES = ("help_text", "first_question", "key_to_verdict", "next_answer", "replay", "progress_screen")


def main() -> int:
    """Run them one after another."""
    wanted = sys.argv[1:] or list(NAMES)
    unknown = [name for name in wanted if name not in NAMES]
    if unknown:
        print(f"no benchmark {unknown[0]!a}: choose {', '.join(NAMES)}", file=sys.stderr)
        return 2
    for name in wanted:
        importlib.import_module(f"tests.bench.{name}").main()
    return 0


if __name__ == "__main__":
    sys.exit(main())
