"""What lies in an inbox and is not taken, and what to do about each: nobody waits for a result that never comes."""

from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from rillwright.folder.scan import ARCHIVES, MODELS, PICTURES, SHOP_FILE, Sight, Signature, pair_key

ENDINGS = {
    ".dwg": "a DWG is not read; save the drawing as DXF",
    ".pdf": "a PDF is not read; drop the drawing as DXF",
    **dict.fromkeys(MODELS, "a model is not read; drop a 2D view of the part as DXF"),
    **dict.fromkeys(PICTURES, "a picture is not read; drop the drawing as DXF"),
    **dict.fromkeys(ARCHIVES, "an archive is not opened; unpack it here"),
    ".toml": "it is neither a shop.toml nor an answers file; check its name",
}
"""Why a file of such an ending is not taken."""

LINK = "a link or no plain file; put the file itself here"
ALONE = "there is no drawing of that name beside it to hold it against"
SEVERAL = "several drawings have its name, so it is held against none; give each a name of its own"


UNANSWERED = "there is no drawing of that name beside it to answer for"


@dataclass
class Untaken:
    """The files of an inbox that are not taken, by name with the reason, as of the last look.

    A file that may be a program, or an answers file, is one of them only if it looks the same at two looks: its drawing
    may be coming.
    """

    reasons: dict[Path, str] = field(default_factory=dict)
    _alone: dict[Path, Signature] = field(default_factory=dict)

    def look(self, sight: Sight) -> dict[Path, str]:
        """Take note of a look; returns the files that are new since the last one."""
        drawings = Counter(map(pair_key, sight.drawings))
        others = {name: found.signature for name, found in sight.others.items() if drawings[pair_key(name)] != 1}
        said = {
            one.name: one.signature
            for (folder, whose), files in sight.answers.items()
            for one in files
            if whose and (folder, whose) not in drawings
        }
        alone = [name for name, signature in others.items() if self._alone.get(name) == signature]
        unanswered = [name for name, signature in said.items() if self._alone.get(name) == signature]
        self._alone = others | said
        now = dict.fromkeys(sight.odd, LINK) | {name: ENDINGS[name.suffix.lower()] for name in sight.unread}
        now |= {name: SEVERAL if drawings[pair_key(name)] else ALONE for name in alone} | dict.fromkeys(
            unanswered, UNANSWERED
        )
        new = {name: why for name, why in now.items() if name not in self.reasons}
        self.reasons = now
        return new


def shop_fault(path: Path) -> str:
    """What is said of drawings below something called shop.toml that can't be read as one."""
    return f"{path} is a link, a folder or no plain file: put the {SHOP_FILE} itself there, or take it away."
