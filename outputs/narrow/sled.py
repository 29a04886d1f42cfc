from scarfwright.models.workup import Workup
from scarfwright.outputs.narrow.scene import Scene


def sled_scenes(work: Workup) -> list[Scene]:
    return []
