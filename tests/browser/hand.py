"""A hand at a screen: taps where a finger would, types letter by letter, and counts both."""

from dataclasses import dataclass, field

from playwright.sync_api import ConsoleMessage, Locator, Page, Request

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


@dataclass
class Watch:
    """What must not happen while a page is used: foreign requests, script errors, policy violations."""

    home: str
    foreign: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def follow(self, page: Page) -> None:
        """Listen to one page from now on."""
        page.on("request", self._request)
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.errors.append(f"script error: {error}"))

    def _request(self, request: Request) -> None:
        if not request.url.startswith((self.home, "data:", "blob:")):
            self.foreign.append(request.url)

    def _console(self, message: ConsoleMessage) -> None:
        # Chromium tells policy violations, script errors and failed loads as console errors.
        if message.type == "error":
            self.errors.append(f"{message.text} ({message.location.get('url')})")

    def assert_clean(self) -> None:
        """Nothing left this machine, nothing failed, nothing broke the policy."""
        assert self.foreign == []
        assert self.errors == []
