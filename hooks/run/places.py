"""Where the project keeps what it makes. Nothing here is in git."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
NODE_MODULES = ROOT / "node_modules"
KEPT = ROOT / ".twice-shy"  # settings and built pages
DEMO = ROOT / "content" / "demo"
OWN_SHOP = ROOT / "content" / "shop"
