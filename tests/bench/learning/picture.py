"""The table as a picture for the README: items read over ninety days, one panel a sort of learner."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import matplotlib as mpl
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from tests.bench.learning.figures import mean_of
from tests.bench.learning.sixline import Sixline
from tests.bench.learning.table import Results, read
from tests.bench.learning.trials import POLICIES, PROBES

STYLES: Final = ("-", "--", "-.", ":", (0, (5, 1)), (0, (1, 1)))
"""Told apart by the line and by the name at its end, not by colour."""


def draw(results: Results, path: Path) -> None:
    """Write it as SVG, the same bytes for the same results.

    Raises:
        OSError: it cannot be written.
    """
    mpl.rcParams["svg.hashsalt"] = "sixline"
    learners = sorted({trial.learner for trial in results})
    figure = Figure(figsize=(4.2 * len(learners), 3.8), layout="constrained")
    FigureCanvasSVG(figure)
    panels = figure.subplots(1, len(learners), sharey=True, squeeze=False)[0]
    for panel, who in zip(panels, learners, strict=True):
        for at, policy in enumerate(POLICIES):
            means = [mean_of(read(results, "every day", who, policy, probe)) for probe in range(len(PROBES))]
            ours = policy == Sixline.name
            panel.errorbar(
                [0, *PROBES],
                [0.0, *[each.value for each in means]],
                [0.0, *[each.half for each in means]],
                label=policy,
                color="black" if ours else "0.45",
                linewidth=2.6 if ours else 1.1,
                linestyle="-" if ours else STYLES[at % len(STYLES)],
                marker="os^Dv*P"[at % 7],
                markersize=5 if ours else 3.5,
            )
        panel.set_title(f"learner {who}")
        panel.set_xlabel("day")
        panel.set_xticks([0, 30, 60, 90])
    panels[0].set_ylabel("items read cold a day later")
    panels[0].legend(fontsize=7, frameon=False)
    figure.savefig(path, format="svg", metadata={"Date": None})
