"""Made-up teardown speech with known sentence ends, for the training of `boundary_model`.

Patterns of what speakers say in the four parts of a procedure (its announcement, what must be off before, the work,
the way back), of notices and of talk beside the work, filled with the actions, parts, fasteners and tools of the
lexicon. In a pattern `[a|b]` is a choice and `{name}` another pattern or a slot of the lexicon. The texts are
punctuated; whoever trains takes the punctuation away. One seed gives the same texts on every machine.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass

from miner.lexicon import Lexicon
from miner.model.recording import Cue, Recording, Word

PATTERNS: dict[str, str] = {
    # --- words
    "count": "[two|three|four|six|five|eight|ten|a couple of|a pair of|2|4]",
    "ord": "[second|third|other|last]",
    "side": "[left|right|rear|front|top|bottom|upper|lower|inner|outer]",
    "thing": "the {part}",
    "things": "[{thing}|{thing}|{thing}|the {side} {part}|both {parts}|the {parts}|that {part}|your {part}|this {part}]",
    "drive": "[T10|T20|T8|PH2|Phillips number two|Torx twenty|hex four|four millimetre hex|cross head|slotted|ten millimetre]",
    "len": "[eight|ten|twelve|sixteen|twenty|thirty five] [millimetres|mil|millimetre]",
    "screws": "[{count} {fasteners}|{count} {drive} {fasteners}|{count} [small|long|short|big|black|silver|little] {fasteners}|one {fastener}|a {fastener}|the {fasteners}|all {count} {fasteners}|{count} M[3|4|5|6] {fasteners}]",
    "where": "[|||on the {side}|at the [back|front|bottom|top|side]|along the {side} edge|in the middle|underneath|near the {part}|behind the {part}|round the edge|on either side|down here|right here|at each corner|inside the {part}]",
    "from": "[|||from the {part}|off the {part}|out of the {part}|away from the {part}]",
    "how": "[||||with the {tool}|with a {tool}|using a {tool}|by hand|carefully|gently|with your [thumb|fingers|hand]|a quarter turn|[clockwise|anticlockwise|counterclockwise]|straight up|one at a time|with a cloth]",
    "it": "[it|that|them|those|this|these|all of them|both of them|the lot|everything]",
    "filler": "[|||||||um,|uh,|er,|you know,|basically,|actually,|yeah,|obviously,]",
    # --- instructions: a verb with its object
    "do": "[{undo} {screws} {where}|{undo} {screws} {how}|{take} {things} {from}|{take} {things} {how}|{takeoff}|{unplug} the {lead} {from}|{move} {things} {how}|{check} {thing}|{check} that {thing} [is|sits] [flat|level|clean|free|seated|tight]|{clean} {things} {how}|{fit} {things}|{keep}|{put} {it} [aside|to one side|somewhere safe|on the bench|down]]",
    "takeoff": "[take|lift|pull|slide|ease|pop|slip|get|work] {things} [off|out|up|away|forward|free|up and out|straight off]|[take|lift|pull|slide|ease|pop|slip|get] {it} [off|out|up|away|forward|free|up and out|straight off]",
    "keep": "[keep {thing} [flat|level|upright|dry|still]|hold {thing} [still|steady|down] {how}|leave {thing} [where it is|alone|in place|on]|don't [lose|drop|bend|force|scratch|pull on] [{thing}|it|them]|be careful with {thing}|watch [that|the] {part}]",
    "two": "[{do}, and {do}|{do} and {do}|{do} and then {do}|{do}, then {do}|{do}, {do}, and {do}|{do} and {do}, then {do}]",
    "cond": "[if it's [stuck|tight|stiff]|if it [sticks|won't move|won't come|binds|rubs]|if {thing} is [worn|cracked|dirty|loose]|if you've got one|once {thing} is [off|out|free|loose]|when {thing} is [off|out|clear]|when you [feel|hear] it [click|give|let go]|before you [start|do that|go on]|as you [lift|pull|turn] it|with {thing} [off|out|held down]|while you [hold|turn|support] {thing}|after that|from here on|at the back|on this one|on the older ones|in here|behind {thing}|underneath {thing}]",
    "trail": "[until it [stops|clicks|comes free|lets go|is tight|points up]|till you [hear|feel] it [click|give]|so [that it doesn't|you don't] [fall|slip|mark it|lose it]|because [it's|they're|that's] [brittle|sharp|heavy|hot|under tension|glued]|as far as it [goes|will go]|when it [clicks|moves]|if it [sticks|is stiff]|before you [pull|lift|turn] it|where it [meets|joins] the {part}|which is {where2}|that {hold} {thing}]",
    "where2": "[at the back|under the {part}|behind the {part}|on the {side} side|a bit hidden]",
    "hold": "[hold|holds|held|keep|secure|secures|fix|fixes|join|joins]",
    "step": "[{do}|{do}|{do}|{two}|{two}|{cond}, {do}|{do} {trail}|{do} {trail}|{two} {trail}]",
    # --- groups of fasteners, as statements
    "spec": "[|, [{drive}|{len}|M[3|4|5]]|, {drive}, {len}|, {drive}, {where}|, M[3|4|5] by {n}|, [they're|those are|these are|all] {drive}|, they're {drive}, {len} long|, {len} long]",
    "n": "[eight|ten|twelve|sixteen|twenty]",
    "group": "[There's {screws} {where}{spec}|There are {screws} {where}{spec}|There's {screws} holding {thing}{spec}|There are {screws} that hold {thing} to the {part}{spec}|There are {screws} holding {thing} to the {part}{spec}|It's held by {screws}{spec}|It's held [on|in|down] {how} with {screws}{spec}|{Thing} is held by {screws}{spec}|{Thing} is fixed to the {part} with {screws}{spec}|You'll find {screws} {where}{spec}|You've got {screws} {where}{spec}|You'll see {screws} {where}{spec}|{Screws} hold {thing} to the {part}{spec}|It has {screws} {where}{spec}|One {fastener} [holds|secures] {thing}{spec}]",
    "groupso": "[{group}|{group}|{group}, so {take} {it} out|{group}, and {takeoff}|{group}, so {do}|{group}, and you {take} {it} out|{group}, so those come out]",
    "theyre": "[They're|Those are|These are|They are all|It's a|That's a|All of them are] {drive}[|, {len} long|, and {len} long|, M[3|4|5] by {n}]",
    # --- statements
    "result": "[{Thing} [comes|lifts|slides|drops|pulls|pops|swings] [off|out|away|free|up|right off|straight out|forward]|{Thing} [comes|lifts|slides] [off|out] {how}|Now {thing} [comes|lifts|slides] [off|out|free]|It [comes|lifts|slides|pops|drops] [off|out|away|right off|straight out]|And it's [off|out|free]|And out it comes|That [comes|lifts] [off|out]|And {thing} [is free|is off|is out|comes out|lifts off]|Then {thing} [comes|lifts|slides] [out|off|free]|You can now [lift|pull|slide|take] {things} [out|off|away]|Now you can {take} {thing} {from}|{Thing} should [come off|slide out|move freely|be free]]",
    "exp": "[It's [a bit tight|under tension|quite stiff|only clipped in|a press fit|a left-hand thread|glued down|heavy|fragile|a tight fit|the {side} one|the one with the {part}]|That's {thing}|That's the one that {hold} {thing}|It [sticks|snaps|bends|marks|tears] [easily|if you force it|when it's cold]|They're [all the same|different lengths|captive|not the same]|That one's [different|longer|stiff|broken]|There's [a seal|a spring|a washer|nothing|some glue|a gasket|another one] [under it|behind it|in there|inside|on the other side]|The {part} [stays|stays where it is|stays on|stays put|goes with it]|Mine [was|is] [stuck|broken|full of dust|cracked|missing]|This one is [worn|new|the old one|bent|from a spare]|You don't need to [remove|take off|touch] {it}|You can leave {it} [on|in place|connected]|It only goes [in|on] one way|Nothing [else|here] [holds it|to undo]|It's [easy|simple|not hard|fiddly] [enough||]]",
    "aside": "[I [did|broke|lost|dropped] [mine|one|that] [last time|once|the other day]|I don't know why they [did that|put it there]|Somebody's been in here before|Look at [that|the state of that|the dust in there|this]|[What a mess|Lovely|Nice|Perfect|Great|There we go|There you go|There it is|That's better|Not bad|Good]|I'll [leave that|put that|zoom in|show you] [there|here|to one side|in a minute|on the bench]|I've [already done that|got a spare one here|marked it with a pen|lost count]|You can [see|hear] [it|that|the wear] [there|here|on the camera]|Ask me how I know|Took me [half an hour|ten minutes|two goes] [last time|the first time]|As you can see, it's [worn|dirty|filthy|fine]|We'll [come back to|look at|need] that [later|in a minute|afterwards]|Don't ask [me|]|My [neighbour|brother|customer|boss] [gave|brought] me this one|Sorry about the [noise|light|camera|shaking]|Bear with me|I [think|guess|reckon] that's [it|original|the problem|why it stopped]|If you [look|have a look] in here, you can see {thing}|People [always|never] forget [that|this]|It [looks|sounds|feels] [fine|worse than it is|a bit rough]|That was [easy|quick|the hard part|close]]",
    "mark": "[|||||||So, |So |Okay, |Okay, so |Now, |Now |Right, |Right, so |Then |And then |Then, |Next, |Next |Now then, |And |And |First, |First |Alright, |Well, |After that, |Finally, |And now |Once more, |Again, |So now |So then |But |Oh, |Yeah, |Also, ]",
    "ill": "[you |you're going to |we're going to |I'm going to |I'm gonna |we |I'll |we'll |you want to |you need to |you have to |I'd |you can |let's |we can |you just |just |you'll want to |I just |go ahead and |make sure you |I like to |you've got to |we need to |please ]",
    "say": "[{mark}{step}|{mark}{step}|{mark}{step}|{mark}{ill}{step}|{mark}{filler} {step}|{step}|{step}]",
    "correct": "[{mark}{take} {thing}, no, sorry, {thing}|There are {count}, no, {count} {fasteners} {where}|That's {drive}, sorry, {drive}|There's three, sorry, four {fasteners}|Wait, not that one, the {side} one|I said {count}, I meant {count}|Hang on, that's the wrong one]",
    # --- statements with a word of talk before them
    "led_prereq": "{lead}{prereq}",
    "led_notice": "{lead}{notice}",
    "led_group": "[|||Now |So |Okay, so |And then |Then |And |Alright, |Now, |So here |Next |And now |Then {filler}]{groupso}",
    "lead": "[|||||And |So |Okay, |Now |And again, |But |Oh, and |And then |Again, |Right, |{filler} ]",
    # --- announcements
    "job": "[removing|replacing|changing|fitting|swapping|refitting|cleaning|adjusting|checking|opening|getting at|taking off|taking out|swapping out]",
    "name": "[the {part}|the {part}|the {side} {part}|the {parts}|the {part} and the {part}]",
    "heading": "[[Section|Step|Job|Part|Procedure|Number] [one|two|three|four|five|six|seven|eight|nine], {job} {name}|[Section|Job|Part] [one|two|three|four|five], {name}|{Job} {name}|{Part} [removal|replacement|adjustment|installation]|{Side} {part} [removal|replacement]|Next, {job} {name}|Next up[,| is|,] {name}|Next is {name}|The next [thing|job|one|step] is {name}|The next [job|thing|procedure|one] is {job} {name}|The [first|second|third|fourth|last] [thing|job|one] is {name}|The [first|second|last] job is {job} {name}|{mark}{name}|{mark}{name} next|{mark}on to {name}|[Okay, so|So|Right,|Now|Alright, now|Right, now] [now |]we're [replacing|going to replace|going to remove|taking off|gonna do|going to take out|swapping|changing|on to] {name}|[Okay, so|So|Right,|Now|Okay,] let's [do|remove|get|take|replace|look at|move on to|change] {name}[ off| out|]|So the job [now|here] is {job} {name}|[Right|Okay|Alright], {name}|{Name} comes next|Then there's {name}|That brings us to {name}|This is [the removal of|how you change|how to take out] {name}|[And the|The] last [one|thing|job] [for today |]is {name}|Last one, {name}|[Okay|Alright|Right], {name} now|Now for {name}|Moving on to {name}|In this section you {take} {name}|This procedure [covers|describes] {job} {name}|For {name} it's [a bit different|more work|almost the same]]",
    "again": "[So let's [replace|do|change|take off] {name}|We're [replacing|changing|taking out] {name}|I'm [replacing|fitting] a new {part}|You do this when {thing} is [worn|broken|noisy]|This is the [noisy|small|heavy|tricky] one|This is the one [everyone asks about|at the back]|This takes [about|] [ten|five|twenty] minutes]",
    "prereq": "[[For this|For that|For this one|To do this|Before this|Before you start|Before starting], {thing} [must be|has to be|needs to be|is] [off|out|removed]|[For this|For this one|For that] you need {thing} [and {thing} |][off|out]|You need {thing} [and {thing} |, {thing} and {thing} |][off|out] [for this|first|for this one|before you start|]|{Thing} must [be removed|be out|be off] [first|before you begin|before starting|]|{Thing} and {thing} must be [off|out|removed]|{Thing} has to [come off|be out|be off] [first|for this|]|That's with {thing} and {thing} [off|out]|With {thing} [off|out|removed]|You've [already got|got] {thing} [and {thing} |][off|out]|{Thing} is [already |][off|out] [already|now|]|Same as before, {thing} and {thing} [off|out]|Same [story|again|deal], {thing}, {thing} and {thing} [off|out]|Again, {thing} and {thing} [are|need to be] [off|out]|Nothing [has to come off|needs to be removed] [first|for this|]|{Thing}, {thing} and {thing} [are|have to be|must be] [off|out|removed]|Required beforehand: {thing}|You'll need [a {tool}|the {tool} and a {tool}|a {tool} and some [grease|tape|patience]]|First {thing} must be out|For that, {thing} [must|has to] be [off|out], and that's all|This assumes {thing} is [off|out]]",
    "notice": "[[Caution|Warning|Careful|Danger|Note|Be careful|Watch out|Heads up|Mind], {danger}|{Danger}|{Danger}, so {safe}|{Safe}|{Safe}, because {danger}|[Please |]{safe} [before you go on|first|here|now]|One [word of warning|thing], {danger}|And [be careful|watch out|mind your fingers], {danger}]",
    "danger": "[the {part} [is|gets|can be] [hot|sharp|live|heavy|under tension|under pressure]|the {part} [can|may] [still |][slip|jump out|hold a charge|bite|cut you|fall|pinch your fingers]|there [is|can be|may be] [mains voltage|pressure|hot water|a strong spring|gas|fluid] [in there|under here|behind it|in the {part}]|these edges are sharp|it [stores energy|will bite you|can shock you|weighs a lot|gets hot]|this [spring|thing|part] can [jump out|hurt you|take your eye out]]",
    "safe": "[unplug it from the mains|wear [gloves|eye protection|safety glasses]|put your [gloves|glasses] on|switch it off and [unplug it|pull the plug]|let it cool [down|for [ten|twenty] minutes]|keep your [fingers|hands] [away|clear|out of there]|make sure it's [unplugged|off|isolated]|discharge it first|support it [with one hand|from below]|disconnect the battery first|don't touch the {part}|never [reach|put your hand] in there|have a licensed [electrician|fitter] do it]",
    "reverse": "[[Installation|Refitting|Assembly|Fitting|Reassembly] is the reverse [of removal||order]|[Refit|Reassemble|Install] in [the |]reverse order|To [refit|fit|install], [reverse the steps|do the same in reverse]|Putting it back is [the reverse|just the reverse|the same backwards]|It goes back [in the reverse order|the same way|together the same way, backwards]|[And |]going back, it's [the reverse|the same in reverse]|[And |]when it goes back[ on| in|], {do}|Back on it's the reverse|When you [put|fit] it back, {do}|To [refit|install|fit] {thing}, {do}|Then [the same|everything] in reverse|Reverse the steps to [fit|refit] it|The new {part} goes [in|on] [the same way|with the {part} up|from below]|The new one goes [in|on] [the same way|in reverse order|just the same], {do}|{Fit} the new {part}, {fit} {it}, and tighten {screws}|Put {screws} back [in|], and {do}|Tighten {it} to [two|three|five|ten] newton metres|And then {screws} go back in|{Thing} goes back [on|in] [first|last|with {screws}]|And {do}]",
    "close": "[That [completes|concludes|finishes] {name}|That's {name} [done|out|off|finished]|And that's {name}[ done| out| off|]|And that's {it2}|That's it for {name}|{Part} done|Done|[And |]there you [go|have it]|[So |]that's that [one |]done|This completes the [removal|replacement] of {name}|That's all there is to it|And you're done with {it}]",
    "it2": "[it|that|that done|the lot]",
    "intro": "[Welcome back|Hello everybody|Hi|Good morning|Hey everybody, welcome back|Hello again]|[Today|So today|In this one|This time] we're [looking at|taking apart|going through] [the {part}|a {part}|this {part}]|On the bench [today |]I've got a {part}|This one [came in|was brought in] with a [broken|noisy|leaking] {part}|I'll [show you|take you through|walk you through] [how it comes apart|the whole thing|all of it]|You'll [want|need] a {tool} and a {tool}|This [manual|document|video] describes [the service|the repair|the teardown] of the {part}",
    "outro": "[Thanks for watching|See you next time|That's all|That's it from me|Any questions, leave them below|That's everything|I'm off for a coffee|End of the procedure|Put everything back and check that it runs|Bye now]",
}

_SLOT = re.compile(r"\{(\w+)\}")
_CHOICE = re.compile(r"\[([^\[\]]*)\]")
_SPACES = re.compile(r"\s+")
_BEFORE_SIGN = re.compile(r"\s+([,.:])")


@dataclass(frozen=True, slots=True)
class Stock:
    """Words of the lexicon by slot."""

    words: dict[str, tuple[str, ...]]


def stock(lexicon: Lexicon) -> Stock:
    """The slots that the lexicon fills."""
    parts = [f"{m} {head.term}" for head in lexicon.heads for m in head.modifiers] + [h.term for h in lexicon.heads]
    leads = [head.term for head in lexicon.heads if head.kind in ("connector", "lead")]
    kinds = [word for kind in lexicon.fasteners for word in (kind.kind, kind.kind, *kind.terms)]

    def verbs(*effects: str) -> tuple[str, ...]:
        return tuple(
            verb for a in lexicon.actions if a.effect in effects for verb in (a.verb, a.verb, *a.idioms) if verb
        )

    return Stock(
        {
            "part": tuple(parts),
            "parts": tuple(part + "s" for part in parts if not part.endswith(("s", "y", "h"))),
            "lead": tuple(leads),
            "fastener": (*kinds, *("screw",) * (len(kinds) // 2), *("bolt", "nut", "clip") * (len(kinds) // 10)),
            "fasteners": tuple(
                kind + "s" for kind in (*kinds, *("screw",) * (len(kinds) // 2)) if not kind.endswith(("s", "y", "h"))
            ),
            "tool": tuple(word for tool in lexicon.tools for word in (tool.term, *tool.synonyms)),
            "undo": (*verbs("undo", "loosen"), *("undo", "remove", "take out", "unscrew", "loosen") * 8),
            "take": (*verbs("detach"), *("remove", "take off", "lift", "pull", "lift off", "pull off") * 8),
            "unplug": (*verbs("disconnect"), *("unplug", "disconnect", "pull") * 5),
            "move": verbs("move", "open", "handle"),
            "check": verbs("inspect"),
            "clean": verbs("clean", "apply", "adjust"),
            "fit": (*verbs("attach", "fasten", "connect", "close"), *("fit", "put back", "push on") * 5),
            "put": ("put", "set", "lay", "leave"),
        }
    )


class Speaker:
    """Says sentences with one random generator."""

    def __init__(self, words: Stock, rng: random.Random) -> None:
        self.words, self.rng = words.words, rng

    def say(self, name: str) -> str:
        """A pattern or slot, filled, without end punctuation."""
        return _BEFORE_SIGN.sub(r"\1", _SPACES.sub(" ", self._fill("{" + name + "}"))).strip(" ,")

    def _fill(self, text: str) -> str:
        while True:
            chosen = _CHOICE.search(text)
            if chosen:
                text = text[: chosen.start()] + self.rng.choice(chosen[1].split("|")) + text[chosen.end() :]
                continue
            slot = _SLOT.search(text)
            if not slot:
                return text
            text = text[: slot.start()] + self._slot(slot[1]) + text[slot.end() :]

    def _slot(self, name: str) -> str:
        low = name.lower()
        if low in self.words:
            filled = self.rng.choice(self.words[low])
        else:
            pattern = PATTERNS[low]
            options = _top(pattern)
            filled = self._fill(self.rng.choice(options))
        return filled if name == low else filled[:1].upper() + filled[1:]


def _top(pattern: str) -> list[str]:
    """The alternatives at the outermost level, so that nested slots of others are not filled in vain."""
    body = pattern[1:-1] if _wrapped(pattern) else pattern
    found, depth, begin = [], 0, 0
    for at, sign in enumerate(body):
        depth += (sign == "[") - (sign == "]")
        if sign == "|" and depth == 0:
            found.append(body[begin:at])
            begin = at + 1
    return [*found, body[begin:]]


def _wrapped(pattern: str) -> bool:
    """Whether one pair of brackets holds the whole pattern."""
    depth = 0
    for at, sign in enumerate(pattern):
        depth += (sign == "[") - (sign == "]")
        if depth == 0 and sign == "]":
            return at == len(pattern) - 1
    return False


def sentences(speaker: Speaker, *, formal: bool) -> Iterator[str]:
    """The sentences of one recording."""
    rng = speaker.rng
    chatty = 0.02 if formal else rng.choice((0.1, 0.2, 0.3))
    for _ in range(rng.randint(1, 4)):
        yield speaker.say("intro")
    for _ in range(rng.randint(4, 8)):
        yield speaker.say("heading")
        if rng.random() < 0.25:
            yield speaker.say("again")
        for name, chance in (("prereq", 0.75), ("prereq", 0.15), ("notice", 0.35)):
            if rng.random() < chance:
                yield speaker.say(name if formal else "led_" + name)
        for _ in range(rng.randint(2, 6)):
            yield from _work(speaker, chatty=chatty, formal=formal)
        for name, chance in (("reverse", 0.6), ("reverse", 0.2), ("close", 0.3)):
            if rng.random() < chance:
                yield speaker.say(name)
    for _ in range(rng.randint(1, 3)):
        yield speaker.say("outro")


def _work(speaker: Speaker, *, chatty: float, formal: bool) -> Iterator[str]:
    rng = speaker.rng
    kind = rng.random()
    if kind < 0.25:
        yield speaker.say("groupso" if formal else "led_group")
        if rng.random() < 0.3:
            yield speaker.say("theyre")
    yield speaker.say("step" if formal and rng.random() < 0.8 else "say")
    for name, chance in (("result", 0.2), ("exp", 0.25), ("notice", 0.05), ("correct", chatty / 4)):
        if rng.random() < chance:
            yield speaker.say(name)
    while rng.random() < chatty:
        yield speaker.say("aside")


def recordings(lexicon: Lexicon, count: int, seed: int = 7) -> Iterator[Recording]:
    """So many made-up recordings, a third of them read from a script, half with the silences of speech."""
    words = stock(lexicon)
    for number in range(count):
        rng = random.Random(seed * 100_003 + number)
        formal, timed = number % 3 == 0, number % 2 == 0
        joined = 0.0 if formal else rng.choice((0.0, 0.05, 0.15))
        texts = []
        for text in sentences(Speaker(words, rng), formal=formal):
            said = text[:1].upper() + text[1:]
            if texts and rng.random() < joined:  # run on, as speakers do: an explanation after a comma
                texts[-1] = texts[-1][:-1] + ","
                said = text[:1].lower() + text[1:]
            texts.append(said + ("!" if rng.random() < 0.02 else "."))
        yield _spoken(" ".join(texts), rng, number, timed=timed, formal=formal)


def _spoken(text: str, rng: random.Random, number: int, *, timed: bool, formal: bool) -> Recording:
    said: list[Word] = []
    at = 0.0
    hesitant = rng.choice((0.005, 0.02, 0.04))
    for word in text.split():
        bare = word.strip(",.!:")
        length = 0.05 + 0.055 * len(bare) * rng.uniform(0.7, 1.4)
        said.append(Word(word, round(at, 3), round(at + length, 3)))
        at += length
        if timed:
            at += _silence(word, rng, hesitant)
    register = "scripted" if formal else "spoken"
    cue = Cue(0.0, said[-1].end, tuple(said))
    return Recording(f"made-{number}", f"made-{number}.json", "recogniser", "0" * 64, (cue,), register=register)


def _silence(word: str, rng: random.Random, hesitant: float) -> float:
    """Seconds after a word: long after most sentences, short after commas, now and then inside."""
    if word[-1] in ".!":
        return rng.choice((0.05, 0.3, 0.45, 0.6, 0.8, 1.0, 1.5))
    if word[-1] in ",:":
        return rng.choice((0.0, 0.0, 0.1, 0.25, 0.4))
    return rng.choice((0.3, 0.5, 0.9)) if rng.random() < hesitant else 0.0
