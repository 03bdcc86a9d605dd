"""What has the focus is seen: no bar that stays in its place lies over it, whichever way one goes through a form."""

from typing import Any

import pytest

from tests.browser.conftest import OpenTab

STEPS = 45
# What lies over the upper, middle or lower part of what has the focus, and stays where it is while the page scrolls.
COVERED = """
() => {
  const one = document.activeElement;
  const box = one.getBoundingClientRect();
  const places = [0.1, 0.5, 0.9].map(share => [box.left + box.width / 2, box.top + box.height * share]);
  const tops = places.map(place => document.elementFromPoint(...place));
  const bars = tops.flatMap(top => {
    for (let over = top; over && !over.contains(one); over = over.parentElement) {
      if (['sticky', 'fixed'].includes(getComputedStyle(over).position)) return [over.id || over.className];
    }
    return [];
  });
  const name = one.getAttribute('name') ?? one.textContent.trim().slice(0, 30);
  return bars.map(bar => `${bar} over ${one.tagName} ${name}`);
}
"""


@pytest.mark.parametrize(
    ("address", "key"),
    [
        ("record/", "Tab"), ("jobs/edit/", "Tab"), ("edit/#id=20250115-093013-gqcpd", "Tab"),
        ("calculators/corner-clearance/", "Tab"), ("calculators/corner-clearance/", "Shift+Tab"),
    ],
)  # fmt: skip
def test_nothing_lies_over_what_has_the_focus(device: Any, open_tab: OpenTab, address: str, key: str) -> None:
    """WCAG 2.2, 2.4.11: by the keyboard, forwards and backwards, while the sums tell their state."""
    page = open_tab(device, address).page
    page.evaluate("document.querySelectorAll('main details').forEach(fold => { fold.open = true; })")
    if address.startswith("calculators"):
        page.fill("[name=cutter_diameter]", "6 kg")
        page.wait_for_function("document.querySelector('#python-status').textContent.trim() !== ''")
    covered = []
    for _ in range(STEPS):
        page.keyboard.press(key)
        page.evaluate("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
        covered += page.evaluate(COVERED)
    assert covered == []
