"""A hand at a screen: taps where a finger would, types letter by letter, and counts both."""

from dataclasses import dataclass

from playwright.sync_api import Locator, Page

ACROSS_HALF = 2


@dataclass
class Hand:
    """Taps and types on one page; `taps` and `letters` say how much it took."""

    page: Page
    touch: bool = False
    taps: int = 0
    letters: int = 0

    def tap(self, target: Locator) -> None:
        """Tap the middle of what is seen there, as a finger or a mouse does: by place, not by script."""
        target.scroll_into_view_if_needed()
        box = target.bounding_box()
        assert box, f"nothing to tap: {target}"
        across, down = box["x"] + box["width"] / ACROSS_HALF, box["y"] + box["height"] / ACROSS_HALF
        if self.touch:
            self.page.touchscreen.tap(across, down)
        else:
            self.page.mouse.click(across, down)
        self.taps += 1

    def type(self, text: str) -> None:
        """Type into whatever has the focus, key by key."""
        self.page.keyboard.type(text)
        self.letters += len(text)

    def fill(self, target: Locator, text: str) -> None:
        """Tap a box, clear what stands in it and type."""
        self.tap(target)
        self.page.keyboard.press("Control+A")
        self.page.keyboard.press("Delete")
        self.type(text)
