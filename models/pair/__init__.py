"""How two cut boards become one stick: which face, which edge and which end of each, and what a wrong turn gives."""
