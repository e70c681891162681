"""Gathers all sound into one Opus file: pack.py SAID.tsv SYNTHETIC ALIGNED.tsv SPEECH PROMPTS OUT; OUT/corpus.opus and OUT/index.tsv.

SPEECH is the shared recordings, decoded to WAV beside the Opus files; PROMPTS is Debian's asterisk-core-sounds-en-wav. Lines of the
index: `kind TAB word TAB speaker TAB first sample TAB last sample` at 16 kHz. Kinds: key, other (single words), running (speech).
"""

import csv
import subprocess
import sys
import wave
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np

RATE = 16_000
DIGITS = "zero one two three four five six seven eight nine".split()
TENS = {"10": "ten", "11": "eleven", "12": "twelve", "13": "thirteen", "14": "fourteen", "15": "fifteen", "16": "sixteen", "17": "seventeen",
        "18": "eighteen", "19": "nineteen", "20": "twenty", "30": "thirty", "40": "forty", "50": "fifty", "60": "sixty", "70": "seventy",
        "80": "eighty", "90": "ninety"}
KEYS = set("again high low mark minus next no point stop yes".split()) | set(DIGITS)
GAP = RATE // 20


def read(path):
    """16 kHz int16, the quiet ends cut to 30 ms; None where there is nothing."""
    try:
        with wave.open(str(path)) as file:
            rate, sound = file.getframerate(), np.frombuffer(file.readframes(file.getnframes()), np.int16)
    except (OSError, EOFError, wave.Error):
        return None
    if rate != RATE:
        length = len(sound) * RATE // rate
        sound = (np.fft.irfft(np.fft.rfft(sound.astype(np.float32)), length) * (length / max(1, len(sound)))).clip(-32768, 32767).astype(np.int16)
    return cut(sound)


def cut(sound):
    level = np.abs(sound.astype(np.int32))
    loud = np.flatnonzero(level > max(60, 0.02 * level.max(initial=0)))
    if len(loud) < RATE // 12:
        return None
    sound = sound[max(0, loud[0] - RATE * 3 // 100): loud[-1] + RATE * 3 // 100].astype(np.float32)
    # One loudness for all: Opus spends its bits alike.
    return (sound / (np.abs(sound).max() + 1) * 20_000).astype(np.int16)


def main():
    said, synthetic, aligned = sys.argv[1:4]
    speech, prompts, out = (Path(one) for one in sys.argv[4:7])
    rows = []
    lines = Path(said).read_text().splitlines()
    voices = dict(line.split("\t") for line in Path(synthetic, "voices.tsv").read_text().splitlines())
    with ProcessPoolExecutor() as pool:
        sounds = list(pool.map(read, [f"{synthetic}/{at}.wav" for at in range(len(lines))], chunksize=100))
    for at, (line, sound) in enumerate(zip(lines, sounds)):
        word, kind = line.split("\t")
        if sound is not None and (kind == "running" or len(sound) < 1.1 * RATE):
            rows.append((kind, word, voices[str(at)], sound))

    for path in sorted(Path(speech, "digits").glob("*.wav")):
        digit, speaker, _ = path.stem.split("_")
        sound = read(path)
        if sound is not None and len(sound) < 1.1 * RATE:
            rows.append(("key", DIGITS[int(digit)], f"fsdd-{speaker}", sound))

    for path in sorted(Path(prompts).rglob("*.wav")):
        name = path.stem
        word = DIGITS[int(name)] if path.parent.name == "digits" and len(name) == 1 and name.isdigit() else TENS.get(name, name)
        sound = read(path)
        if sound is None:
            continue
        if word in KEYS and path.parent.name == "digits":
            rows.append(("key", word, "prompts", sound))
        elif len(sound) < 6 * RATE:
            rows.append(("other" if len(sound) < 0.9 * RATE else "running", word, "prompts", sound))

    speakers = {row["file"]: row["speaker"] for row in csv.DictReader(open(Path(speech, "sentences.tsv")), delimiter="\t")}
    by_file = {}
    for line in Path(aligned).read_text().splitlines():
        file, word, start, end = line.split("\t")
        by_file.setdefault(file, []).append((word, float(start), float(end)))
    for file, words in by_file.items():
        with wave.open(str(Path(speech, file.replace(".opus", ".wav")))) as wav:
            sound = np.frombuffer(wav.readframes(wav.getnframes()), np.int16)
        speaker = f"so-{speakers[file]}"
        for at, (word, start, end) in enumerate(words):
            # Halfway to the words beside it: CTC puts phones late and short.
            before = (words[at - 1][2] + start) / 2 if at else max(0, start - 0.15)
            after = (end + words[at + 1][1]) / 2 if at + 1 < len(words) else end + 0.2
            piece = cut(sound[int(max(before, start - 0.12) * RATE): int(min(after, end + 0.15) * RATE)])
            if word in KEYS and piece is not None and 0.12 * RATE < len(piece) < RATE:
                rows.append(("key", word, speaker, piece))
        whole = cut(sound)
        if whole is not None and len(words) > 2:
            rows.append(("running", "sentence", speaker, whole[:7 * RATE]))

    out.mkdir(parents=True, exist_ok=True)
    at, parts, index = 0, [], []
    for kind, word, speaker, sound in rows:
        index.append(f"{kind}\t{word}\t{speaker}\t{at}\t{at + len(sound)}\n")
        parts += [sound, np.zeros(GAP, np.int16)]
        at += len(sound) + GAP
    Path(out, "index.tsv").write_text("".join(index))
    with wave.open(str(Path(out, "corpus.wav")), "wb") as wav:
        wav.setnchannels(1), wav.setsampwidth(2), wav.setframerate(RATE)
        wav.writeframes(np.concatenate(parts).tobytes())
    subprocess.run(["opusenc", "--quiet", "--bitrate", "20", "--comp", "5", str(Path(out, "corpus.wav")), str(Path(out, "corpus.opus"))], check=True)
    print(len(rows), f"{at / RATE / 3600:.2f} h")


if __name__ == "__main__":
    main()
