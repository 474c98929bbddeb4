"""Which settings rule a drawing in the inbox: those of the call, with the nearest shop.toml laid over them."""

from dataclasses import field, replace
from pathlib import Path

from extractor.errors import SettingsError
from extractor.values import dataclass
from rillwright.answers import load
from rillwright.folder.scan import SHOP_FILE, InboxFile, Sight, Signature, shop_file_of
from rillwright.folder.settle import Settling
from rillwright.folder.untaken import shop_fault
from rillwright.settings import AnswerFile, Settings
from rillwright.toml_file import read_toml_file
from rillwright.tongues import beside_shop


@dataclass(frozen=True)
class Ruling:
    """The settings that rule a drawing, and what is wrong with them (empty if nothing is)."""

    settings: Settings
    fault: str = ""


@dataclass
class Shops:
    """Shop files of the inbox as last read. `base` are the settings of the call."""

    inbox: Path
    base: Settings
    settling: Settling
    _read: dict[Path, tuple[Signature, Ruling]] = field(default_factory=dict)
    _seen: dict[Path, float] = field(default_factory=dict)
    _answers: dict[Path, tuple[Signature, AnswerFile]] = field(default_factory=dict)

    def ruling(self, drawing: Path, sight: Sight, now: float) -> Ruling | None:
        """What rules a drawing; None while its shop file or an answers file is still arriving."""
        ruling = self._by_shop(drawing, sight, now)
        answers = [self._said(found, now) for found in sight.answers_to(drawing)]
        if ruling is None or None in answers:
            return None
        told = tuple(one for one in answers if one is not None)
        return replace(ruling, settings=replace(ruling.settings, answers=told)) if told else ruling

    def _said(self, found: InboxFile, now: float) -> AnswerFile | None:
        """An answers file, None while it is still arriving."""
        known = self._answers.get(found.name)
        if known is None or known[0] != found.signature:
            if not self.settling.arrived(self.inbox, found, now):
                return None
            known = self._answers[found.name] = (found.signature, load(self.inbox / found.name))
        return known[1]

    def _by_shop(self, drawing: Path, sight: Sight, now: float) -> Ruling | None:
        """What the shop file that rules a drawing says; None while it is still arriving."""
        broken = {name: InboxFile(name, (0, 0, 0, 0)) for name in sight.odd if name.name.lower() == SHOP_FILE}
        path = shop_file_of(drawing, sight.shops | broken)
        if self._gone_for_a_moment(drawing, sight, path, now):
            return None
        if path is None:
            return Ruling(self.base)
        if path in broken:
            words = shop_fault(path)
            return Ruling(replace(self.base, shop_text=f"# {words}", shop_name=str(path)), words)
        found = sight.shops[path]
        known = self._read.get(path)
        if known is None or known[0] != found.signature:
            if not self.settling.arrived(self.inbox, found, now):
                return None
            known = self._read[path] = (found.signature, self._load(path))
        return known[1]

    def _gone_for_a_moment(self, drawing: Path, sight: Sight, path: Path | None, now: float) -> bool:
        """True while a nearer shop file than the one there now has been away for less than the settling time.

        An editor that saves takes a file away for a moment; the drawings below must not be made for another machine.
        """
        for name in sight.shops:
            self._seen[name] = now
        away = {n: InboxFile(n, (0, 0, 0, 0)) for n, at in self._seen.items() if now - at < self.settling.wait}
        return shop_file_of(drawing, sight.shops | away) not in (path, None)

    def late(self, drawing: Path, sight: Sight) -> bool:
        """True if its shop file, or an answers file, is one that a run which is to end no longer waits for."""
        answers = {found.name for found in sight.answers_to(drawing)}
        return bool({shop_file_of(drawing, sight.shops), *answers} & self.settling.late)

    def _load(self, path: Path) -> Ruling:
        try:
            text = read_toml_file(self.inbox / path)
        except SettingsError as error:
            return Ruling(replace(self.base, shop_text=f"# {error}", shop_name=str(path)), str(error))
        settings = replace(self.base, shop_text=text, shop_name=str(path))
        try:
            own = dict(self.base.tongues) | dict(beside_shop(text, self.inbox / path))
            settings = replace(settings, tongues=tuple(own.items()))
            settings.check()
        except SettingsError as error:
            return Ruling(settings, str(error))
        return Ruling(settings)
