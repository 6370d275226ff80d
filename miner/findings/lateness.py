"""Whether a warning comes too late: what it guards against has been met when it is said.

Four ways to tell. The draft ties it to an earlier step; it says "before you touch that nut" when the nut is off; it
stands between the last part that comes off and what goes back in; or it names a hazard that only earlier steps met.
What is said of refitting, of the new part, of use, or of the steps to come is in time.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.asides import warns_of_nothing
from miner.findings.case import Case
from miner.findings.hazards import met, spoken_of
from miner.findings.phrasing import phrasing
from miner.findings.talk import Talk
from miner.model.draft import Notice, Procedure, Step
from miner.model.finding import Evidence
from miner.model.naming import part_words
from miner.teardown.effects import PARTING

_INJURING = frozenset({"danger", "warning"})
_MARGIN = 0.5  # seconds after the start of a step from which on a notice comes too late
_NEAR = 25.0  # seconds within which a warning still speaks of what has just come off
_JUST = 1.5  # seconds before a warning in which its occasion is named
_AROUND = 220  # characters around "before you touch it" in which the injury is named
_KEEP = re.compile(r"\b(?:lose|losing|lost|loose bits|keep (?:them|it|the)|drop (?:them|'?em))\b", re.IGNORECASE)
_TO_COME = re.compile(
    r"\b(?:refit\w*|re-?assembl\w*|re-?install\w*|assembly|(?:over-?)?tighten\w*|(?:goes|go|going|put|putting|comes?) "
    r"(?:it |them |that |everything )?back|on the way back|after (?:this|that)|from (?:here|now|this point) on|"
    r"(?:a |the |your )?new|afterwards|fresh)\b",
    re.IGNORECASE,
)
_WHEN_BACK = re.compile(
    r"\b(?:when|as|while|on|for) (?:you |we |it |they )?(?:refit\w*|re-?assembl\w*|re-?install\w*|"
    r"(?:put|putting|goes?|comes?) (?:it |them |that )?back)\b|\b(?:put|set|pop|drop|slide) (?:it|them|that) back\b",
    re.IGNORECASE,
)
_IN_USE = re.compile(
    r"\b(?:never|not|don't) (?:be )?(?:run|operated?|used?|stored|started|driven|wander)\b", re.IGNORECASE
)
# What a warning leads to is still to come.
_GOES_ON = re.compile(
    r"\band (?:then )?(?:lift|pull|slide|draw|take|lower|tip|swing)\b|\b(?:any )?further\b|"
    r"\bbefore (?:the next|we go on)\b",
    re.IGNORECASE,
)
# Called out while the work is done.
_MEANWHILE = re.compile(r"(?:oh |ah |and |but )?(?:careful|mind|easy|gently|steady|watch)\b", re.IGNORECASE)
_HARM = re.compile(
    r"\b(?:never|not|\w+n't|avoid|no|careful\w*|care|mind|watch|easy|easily|or|otherwise|else|so|only|break\w*|"
    r"crack\w*|tears?|rips?|snaps?|damag\w+|bend\w*|scratch\w*|fragile|brittle|delicate|spill\w*|destroy\w*|shifts?|"
    r"sharp|static|lock\w*|jam\w*|strips?|stiff)\b",
    re.IGNORECASE,
)
_FORCE = re.compile(r"\b(?:never|not|don't|do not) (?:ever )?(?:lever|pry|prise|yank|tug|pull|force|twist|bend|jerk)")
_BEFORE = re.compile(
    r"\bbefore (?:you |anyone |we |ever )?(?:touch|undo|open|remov|pull|lift|handl|unscrew|loosen|slacken|crack|"
    r"go near|going near|start on|work on|working on)(?:e|ing|ening)? (?:to |on |at |off )?"
    r"(?:the|that|this|those|these) (?:[a-z]+ ){0,2}?(?P<noun>[a-z]+)\b"
)


def late_notices(case: Case, procedure: Procedure) -> Iterator[tuple[Step, Notice]]:
    """The warnings and cautions of a procedure that come too late, each with the step that it guards."""
    steps = {step.id: step for step in procedure.steps}
    for notice in procedure.notices:
        guarded = steps.get(notice.step or "")
        if (notice.kind not in _INJURING and notice.kind != "caution") or warns_of_nothing(notice.text):
            continue
        if _of_the_way_back(case, notice.text.casefold()) or _mere_weight(case, notice.text.casefold()):
            continue
        if guarded is not None and notice.start >= guarded.start + _MARGIN:
            late = guarded if _too_late(case, procedure, notice, guarded) else None
        elif notice.kind == "caution":
            late = _forced(case, procedure, notice)
        elif _TO_COME.search(notice.text):
            late = None
        else:
            ways = (_thought_of_late, _over, _met_before)
            late = next((step for way in ways if (step := way(case, procedure, notice))), None)
        if late is not None:
            yield late, notice


def _too_late(case: Case, procedure: Procedure, notice: Notice, step: Step) -> bool:
    """Whether a notice that the draft ties to an earlier step is really about it."""
    if notice.text and notice.text in step.spoken:
        return False  # said within the sentence of the step
    if step.phase in ("install", "after"):
        return False  # when all is back together it is about use
    if _GOES_ON.search(notice.text):
        return False  # "it's heavier than it looks, so support it and lift it off"
    before = _said_before(case, notice)
    if notice.kind != "caution":
        return _WHEN_BACK.search(before) is None
    if _MEANWHILE.match(notice.text):
        return False
    if step.phase != "remove" or _KEEP.search(notice.text) or not _HARM.search(notice.text):
        return False  # how to do it, or what to keep: timely when the part is out
    between = [one for one in procedure.steps if step.start < one.start < notice.start and one.phase != "remove"]
    to_come = _TO_COME.search(notice.text) or _WHEN_BACK.search(f"{before} | {_said_next(case, notice)}")
    return not (between or to_come or _IN_USE.search(notice.text))


def _of_the_way_back(case: Case, text: str) -> bool:
    """Whether a notice speaks of doing things up again: "you don't use the wrench to do this one up"."""
    return any(phrasing(case.lexicon, role).search(text) for role in ("doing-up", "reverse"))


def _mere_weight(case: Case, text: str) -> bool:
    """Whether a notice tells how heavy a thing is, and asks for nothing: "they weigh a ton by the way"."""
    return bool(phrasing(case.lexicon, "weight").search(text)) and not phrasing(case.lexicon, "asks-care").search(text)


def _said_before(case: Case, notice: Notice) -> str:
    """The utterance in which a notice begins, up to its own words ("when you put it back on, be careful")."""
    talk = [one for one in case.spoken if notice.start - _JUST < one.end and one.start < notice.start + _MARGIN]
    return " ".join(one.quote for one in talk)


def _said_next(case: Case, notice: Notice) -> str:
    """The utterance after a notice, which may tell what it is about ("aim straight down when you refit it")."""
    following = (one.quote for one in case.spoken if one.start >= notice.end - _MARGIN)
    return next(following, "")


def _neighbours(procedure: Procedure, time: float) -> tuple[Step | None, Step | None]:
    """The steps told last before and first after a moment."""
    before = [step for step in procedure.steps if step.start < time - _MARGIN]
    after = [step for step in procedure.steps if step.start >= time - _MARGIN and step.action != "repeat"]
    last = max(before, key=lambda step: step.start, default=None)
    return last, min(after, key=lambda step: step.start, default=None)


def _thought_of_late(case: Case, procedure: Procedure, notice: Notice) -> Step | None:
    """The step told last, if a warning about its part is brought in as an afterthought: "oh and watch ..."."""
    last, _ = _neighbours(procedure, notice.start)
    if last is None or last.phase != "remove" or notice.start - last.end > _NEAR:
        return None
    about = bool(set(part_words(last.part)[-1:] if last.part else ()) & set(part_words(notice.text)))
    late = phrasing(case.lexicon, "afterthought").search(_said_before(case, notice).casefold())
    return last if about and late else None


def _over(case: Case, procedure: Procedure, notice: Notice) -> Step | None:
    """The last step that took something off, if a warning of injury follows it and only refitting comes after."""
    last, following = _neighbours(procedure, notice.start)
    if last is None or last.phase != "remove" or notice.start - last.end > _NEAR:
        return None
    if following is not None and following.phase in ("prepare", "remove"):
        return None
    reversed_ = procedure.install.start is not None and procedure.install.start < notice.start
    return None if reversed_ or phrasing(case.lexicon, "weight").search(notice.text.casefold()) else last


def _met_before(case: Case, procedure: Procedure, notice: Notice) -> Step | None:
    """The first step that meets a hazard which the notice names, if it is told before."""
    back = min((s.start for s in procedure.steps if s.phase == "install" and s.start > notice.start), default=None)
    apart = [s for s in procedure.steps if s.phase == "remove" and (back is None or s.start < back)]
    for hazard in spoken_of(case, notice.text):
        steps = [step for step in apart if hazard in met(case, step)]
        if steps and steps[0].end < notice.start + _MARGIN:
            return steps[0]
    return None


def _forced(case: Case, procedure: Procedure, notice: Notice) -> Step | None:
    """The step that took a part out, if the caution not to force it comes right after and nothing follows on it."""
    last, _ = _neighbours(procedure, notice.start)
    if last is None or not _FORCE.search(notice.text.casefold()) or notice.start - last.end > _NEAR:
        return None
    words = part_words(last.part) if last.part else ()
    named = bool(words) and (words[-1] in part_words(notice.text) or " it" in notice.text.casefold())
    later = [step for step in procedure.steps if step.start > notice.start and step.phase == "remove"]
    on_it = any(step.part and part_words(step.part)[-1:] == words[-1:] for step in later)
    return last if case.teardown.effects.takes_out(last) and named and not on_it else None


def late_words(case: Case) -> Iterator[tuple[Procedure, Step, Evidence]]:
    """Where "before you touch the valve, it burns" is said when a step has worked on the valve already."""
    talk = Talk.of(case)
    injury, wrong = phrasing(case.lexicon, "injury"), phrasing(case.lexicon, "told-wrong")
    for match in _BEFORE.finditer(talk.text):
        cue = talk.cue(match.start())
        procedure = case.at(cue.start)
        if wrong.search(talk.text, max(0, match.start() - _AROUND), match.end()):
            continue  # "I've told you that back to front": a step comes late, not a warning
        if procedure is None or not injury.search(talk.text, max(0, match.start() - _AROUND), match.end() + _AROUND):
            continue
        done = _worked_on(case, procedure, match["noun"], cue.start)
        if done is not None:
            yield procedure, done, cue


def _worked_on(case: Case, procedure: Procedure, noun: str, time: float) -> Step | None:
    """The last step before a moment that took apart what a noun names; None where a later step does so too."""
    named = part_words(noun)
    steps = [
        step
        for step in procedure.steps
        if step.phase == "remove"
        and case.teardown.effects.of(step) in PARTING
        and any(part_words(name)[-1:] == named for name in (step.part, *(g.kind for g in step.fasteners)) if name)
    ]
    if not named or not steps or any(step.start > time - _MARGIN for step in steps):
        return None
    return steps[-1]
