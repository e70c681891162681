"""Has Debian's synthetic voices say the phrases: synthesise.py PHRASES.tsv OUT [TOOLS]; OUT/NUMBER.wav and OUT/voices.tsv.

TOOLS is a folder with bin, lib and share of flite and espeak-ng, for a machine that has them not installed. flite's `rms`
and festival's `ked` are never used here: they are kept for measuring; festival's other voices are for tuning.
"""

import os
import random
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

FLITE = {"slt": 0.12, "awb": 0.12, "kal16": 0.09, "kal": 0.05}
ESPEAK_VOICES = [
    ("en-us", 8), ("en-gb", 3), ("en-gb-x-rp", 2), ("en-gb-scotland", 1), ("en-us-nyc", 2),
    ("en-gb-x-gbclan", 1), ("en-gb-x-gbcwmd", 1), ("en-029", 1),
]
ESPEAK_VARIANTS = (
    "m1 m2 m3 m4 m5 m6 m7 m8 f1 f2 f3 f4 f5 klatt klatt2 klatt3 klatt4 klatt5 klatt6 Alex Alicia Andrea Andy Annie "
    "Denis Diogo Gene Gene2 Henrique Hugo Jacky Lee Marco Mario Michael Mike Mr Nguyen Storm adam anika antonio aunty "
    "benjamin boris caleb david ed edward edward2 grandma grandpa gustave iven iven2 iven3 john linda marcelo max "
    "michel miguel norbert pablo paul pedro quincy rob robert sandro shelby steph steph2 steph3 travis victor zac"
).split()
SPELLED = {"co2": "C O two", "o2": "O two", "co": "C O", "ppm": "P P M", "rpm": "R P M", "psi": "P S I"}


def spoken(text):
    """Letters are said as letters; now and then a comma where a person takes breath."""
    words = [SPELLED.get(word, word) for word in text.split()]
    for at in range(1, len(words)):
        if random.random() < 0.04:
            words[at - 1] += ","
    return " ".join(words)


def choose():
    draw = random.random()
    for voice, share in FLITE.items():
        if draw < share:
            return "flite", voice
        draw -= share
    voice = random.choices([name for name, _ in ESPEAK_VOICES], [weight for _, weight in ESPEAK_VOICES])[0]
    return "espeak", f"{voice}+{random.choice(ESPEAK_VARIANTS)}"


def environment(tools):
    env = dict(os.environ)
    if tools:
        env["LD_LIBRARY_PATH"] = f"{tools}/lib"
        env["ESPEAK_DATA_PATH"] = f"{tools}/share/espeak-ng-data"
    return env


def program(tools, name):
    return f"{tools}/bin/{name}" if tools else name


def run(command, env):
    subprocess.run(command, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120, check=False)


def say(job, out, tools, env):
    number, text, engine, voice = job
    wav = f"{out}/{number}.wav"
    if engine == "flite":
        stretch, pitch = random.uniform(0.75, 1.25), {"slt": 170, "awb": 130}.get(voice, 100) * random.uniform(0.8, 1.25)
        run([program(tools, "flite"), "-voice", voice, "--setf", f"duration_stretch={stretch:.2f}",
             "--setf", f"int_f0_target_mean={pitch:.0f}", "-t", text, "-o", wav], env)
    else:
        run([program(tools, "espeak-ng"), "-v", voice, "-s", str(random.randint(125, 215)),
             "-p", str(random.randint(20, 80)), "-a", "100", "-g", str(random.choice([0, 0, 0, 3, 8])), "-w", wav, text], env)


def main():
    phrases, out = sys.argv[1], sys.argv[2]
    tools = os.path.abspath(sys.argv[3]) if len(sys.argv) > 3 else None
    random.seed(1)
    os.makedirs(out, exist_ok=True)
    jobs = []
    for number, line in enumerate(Path(phrases).read_text().splitlines()):
        engine, voice = choose()
        jobs.append((number, spoken(line.split("\t")[0]), engine, voice))
    env = environment(tools)
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        waits = [pool.submit(say, job, out, tools, env) for job in jobs]
        for wait in waits:
            if wait.exception():
                print(wait.exception(), file=sys.stderr)
    Path(out, "voices.tsv").write_text("".join(f"{number}\t{engine}-{voice}\n" for number, _, engine, voice in jobs))


if __name__ == "__main__":
    main()
