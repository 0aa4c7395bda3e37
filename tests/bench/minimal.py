"""The floor: a Textual app with a header, a text and a footer; a key changes the text."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.widgets import Footer, Header, Static


class Minimal(App[None]):
    """As little as an app can be."""

    BINDINGS = [("q", "quit", "Quit"), ("1", "turn", "Turn")]
    count = 0

    def compose(self) -> ComposeResult:
        yield Header()
        yield Static("floor-text", id="text")
        yield Footer()

    def action_turn(self) -> None:
        """Another text."""
        self.count += 1
        self.query_one("#text", Static).update(f"turned-{self.count}-text")


if __name__ == "__main__":
    Minimal().run()
