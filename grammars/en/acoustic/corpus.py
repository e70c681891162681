"""Gathers all speech into one file: corpus.py PHRASES.tsv SYNTHETIC REAL OUT.pt (REAL holds speech/ and ast/)."""

import csv
import random
import subprocess
import sys
import wave
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path

import numpy as np
import torch

from model import PHONES, RATE

HELD_DIGITS = "yweweler"
WORDS = "zero one two three four five six seven eight nine".split()
NAMES = {"10": "ten", "11": "eleven", "12": "twelve", "13": "thirteen", "14": "fourteen", "15": "fifteen",
         "16": "sixteen", "17": "seventeen", "18": "eighteen", "19": "nineteen", "20": "twenty", "30": "thirty",
         "40": "forty", "50": "fifty", "60": "sixty", "70": "seventy", "80": "eighty", "90": "ninety"}


def read(path):
    """16 kHz int16, the quiet ends cut to 50 ms; None where there is nothing."""
    try:
        with wave.open(str(path)) as file:
            rate, sound = file.getframerate(), np.frombuffer(file.readframes(file.getnframes()), np.int16)
    except (OSError, EOFError, wave.Error):
        return None
    if rate != RATE:
        sound = resampled(sound.astype(np.float32), len(sound) * RATE // rate).clip(-32768, 32767).astype(np.int16)
    loud = np.flatnonzero(np.abs(sound.astype(np.int32)) > max(60, 0.02 * np.abs(sound.astype(np.int32)).max(initial=0)))
    if len(loud) < RATE // 10:
        return None
    return sound[max(0, loud[0] - 800): loud[-1] + 800]


def resampled(sound, length):
    """Through its spectrum: the whole utterance at once."""
    return np.fft.irfft(np.fft.rfft(sound), length) * (length / max(1, len(sound)))


def decode(opus):
    wav = opus.with_suffix(".wav")
    subprocess.run(["opusdec", "--quiet", "--rate", str(RATE), str(opus), str(wav)], check=False,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def strung(parts, generator):
    """Single words in a row with short pauses: (sound, words)."""
    sounds, words = [], []
    for word, sound in parts:
        sounds += [sound, np.zeros(generator.randrange(0, RATE // 4), np.int16)]
        words.append(word)
    return np.concatenate(sounds[:-1]), words


def dictionary(real):
    ways = {}
    for line in Path(real, "pronunciations.txt").read_text().splitlines():
        word, *phones = line.split()
        ways.setdefault(word, phones)
    return ways


def main():
    phrases, synthetic, real, out = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]), sys.argv[4]
    generator = random.Random(1)
    with ThreadPoolExecutor(16) as pool:
        list(pool.map(decode, real.rglob("*.opus")))
    number = {phone: index for index, phone in enumerate(PHONES)}
    rows = []  # kind, speaker, held, sound, phones

    lines = Path(phrases).read_text().splitlines()
    voices = dict(line.split("\t") for line in (synthetic / "voices.tsv").read_text().splitlines())
    with ProcessPoolExecutor() as pool:
        sounds = list(pool.map(read, [synthetic / f"{at}.wav" for at in range(len(lines))], chunksize=200))
    for at, (line, sound) in enumerate(zip(lines, sounds)):
        if sound is not None:
            rows.append(("synthetic", voices[str(at)], False, sound, line.split("\t")[1].split()))

    ways = dictionary(real)
    with open(real / "speech/sentences.tsv") as file:
        spoken = list(csv.DictReader(file, delimiter="\t"))
    speakers = sorted({row["speaker"] for row in spoken})
    held = set(speakers[::9])
    for row in spoken:
        words = row["text"].lower().replace("'", "'").split()
        sound = read(real / "speech" / row["file"].replace(".opus", ".wav"))
        if sound is None or any(word not in ways for word in words):
            continue
        rows.append(("sentence", row["speaker"], row["speaker"] in held, sound, [p for word in words for p in ways[word]]))

    clips = {}
    for path in sorted((real / "speech/digits").glob("*.wav")):
        digit, speaker, _ = path.stem.split("_")
        clips.setdefault(speaker, []).append((WORDS[int(digit)], read(path)))
    for path in sorted((real / "ast").glob("*.wav")):
        word = NAMES.get(path.stem, path.stem) if len(path.stem) > 1 else WORDS[int(path.stem)]
        clips.setdefault("prompts", []).append((word, read(path)))
    for speaker, known in clips.items():
        known = [clip for clip in known if clip[1] is not None]
        for _ in range(1000 if speaker != HELD_DIGITS else 150):
            sound, words = strung(generator.choices(known, k=generator.randint(1, 6)), generator)
            rows.append(("digits", speaker, speaker == HELD_DIGITS, sound, [p for word in words for p in ways[word]]))

    rows = [row for row in rows if RATE // 5 < len(row[3]) < 11 * RATE]
    sound = torch.from_numpy(np.concatenate([row[3] for row in rows]))
    starts = np.cumsum([0] + [len(row[3]) for row in rows])
    torch.save({"sound": sound, "starts": torch.from_numpy(starts), "kinds": [row[0] for row in rows],
                "speakers": [row[1] for row in rows], "held": torch.tensor([row[2] for row in rows]),
                "phones": [torch.tensor([number[p] for p in row[4]]) for row in rows]}, out)
    for kind in ("synthetic", "sentence", "digits"):
        seconds = sum(len(row[3]) for row in rows if row[0] == kind) / RATE
        print(kind, sum(row[0] == kind for row in rows), f"{seconds / 3600:.2f} h")


if __name__ == "__main__":
    main()
