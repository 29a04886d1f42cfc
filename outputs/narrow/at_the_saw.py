from scarfwright.models.workup import Workup
from scarfwright.outputs.narrow.scene import Scene


def setup_scenes(work: Workup) -> list[Scene]:
    return []
