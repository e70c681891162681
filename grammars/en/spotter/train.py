"""Trains the key-word model: train.py CORPUS.wav INDEX.tsv OUT MINUTES LEFT_OUT...; speakers LEFT_OUT are never heard. OUT.pt, OUT.log.

Every ninth speaker of the sentences is left out too, as for the phone model.
"""

import copy
import random
import sys
import time
import wave
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F

# Its noises; its `model` has another meaning than ours, which comes first.
sys.path.append(str(Path(__file__).resolve().parent.parent / "acoustic"))
from noise import bank, rooms  # noqa: E402
from model import BINS, COLUMNS, HOP, RATE, WINDOW, WORDS, Spotter, analyser, columns, normalised  # noqa: E402

BATCH, GROUPS = 1024, 4
LENGTH = int(1.5 * RATE)
WARPS = [0.84 + 0.03 * step for step in range(12)]
BACKGROUND, UNKNOWN = 0, 1


class Corpus:
    def __init__(self, sound, index, left_out, device):
        with wave.open(sound) as file:
            self.sound = torch.from_numpy(np.frombuffer(file.readframes(file.getnframes()), np.int16).copy()).to(device)
        rows = [line.split("\t") for line in Path(index).read_text().splitlines()]
        speakers = sorted({row[2] for row in rows if row[2].startswith("so-")})
        left = set(left_out) | set(speakers[::9])
        only_keys = lambda text: all(word in WORDS for word in text.split())
        self.rows = [row for row in rows if not (row[0] == "running" and only_keys(row[1]))]
        self.start = torch.tensor([int(row[3]) for row in self.rows], device=device)
        self.length = torch.tensor([int(row[4]) - int(row[3]) for row in self.rows], device=device)
        self.left = [row[2] in left for row in self.rows]
        self.device = device
        self.label = torch.tensor([WORDS.index(row[1]) + 2 if row[0] == "key" else UNKNOWN for row in self.rows], device=device)
        share = {"fsdd": 0.4, "so": 0.22, "prompts": 0.03, "synthetic": 0.35}
        group = lambda speaker: speaker.split("-")[0] if speaker.split("-")[0] in share else "synthetic"
        count = {}
        for row, out in zip(self.rows, self.left):
            if not out:
                count[(row[0], row[1] if row[0] == "key" else "", group(row[2]))] = count.get((row[0], row[1] if row[0] == "key" else "", group(row[2])), 0) + 1
        def weight(row):
            # A group with few takes is not drawn over and over: at most 0.004 of the word a take.
            n = count[(row[0], row[1] if row[0] == "key" else "", group(row[2]))]
            return min(share[group(row[2])] / n, 0.004)
        per = {word: 0.0 for word in WORDS}
        for row, out in zip(self.rows, self.left):
            if row[0] == "key" and not out:
                per[row[1]] += weight(row)
        self.drawn = {
            kind: torch.tensor([0.0 if out or row[0] != kind else weight(row) / (per[row[1]] if kind == "key" else 1.0) for row, out in zip(self.rows, self.left)],
                               device=device) for kind in ("key", "other", "running")}

    def piece(self, ids, offsets, speed):
        """Each row's sound from its offset (samples of the window, may be negative) at its speed: B x LENGTH."""
        at = (torch.arange(LENGTH, device=self.device)[None] - offsets[:, None]) * speed[:, None]
        size = self.length[ids][:, None]
        inside = (at >= 0) & (at < size - 1)
        at = at.clamp(min=0)
        low = torch.minimum(at.floor().long(), size - 2)
        part = at - low
        index = self.start[ids][:, None] + low
        value = self.sound[index].float() * (1 - part) + self.sound[index + 1].float() * part
        return torch.where(inside, value, torch.zeros((), device=self.device)) / 32768

    def crowd(self):
        usable = [at for at, (row, out) in enumerate(zip(self.rows, self.left)) if row[0] == "running" and not out]

        def speech(count, length):
            out = []
            for _ in range(count):
                parts, total = [], 0
                while total < length:
                    one = random.choice(usable)
                    sound = self.sound[self.start[one]:self.start[one] + self.length[one]].float() / 32768
                    parts.append(sound / (sound.square().mean().sqrt() + 1e-6))
                    total += len(sound)
                out.append(torch.cat(parts)[:length])
            return out
        return speech


class Batches:
    def __init__(self, corpus, noises, echoes, device):
        self.corpus, self.noises, self.echoes, self.device = corpus, noises, echoes, device
        self.transforms = [analyser(warp).to(device) for warp in WARPS]
        self.plain = analyser().to(device)
        self.size = 1 << (LENGTH + RATE // 2).bit_length()
        self.hertz = torch.linspace(0, RATE / 2, self.size // 2 + 1, device=device)

    def noise(self, count):
        which = torch.randint(len(self.noises), (count,), device=self.device)
        start = torch.randint(self.noises.shape[1] - LENGTH, (count,), device=self.device)
        return self.noises[which[:, None], start[:, None] + torch.arange(LENGTH, device=self.device)[None]].float()

    def equaliser(self, count, depth=4.0):
        points = torch.randn(count, 9, device=self.device) * depth * torch.rand(count, 1, device=self.device)
        octaves = ((self.hertz / 60).clamp(min=1).log2()).clamp(max=6.99)
        low = octaves.floor().long()
        part = octaves - low
        return 10 ** ((points[:, low] * (1 - part) + points[:, low + 1] * part) / 20)

    def power(self, spectrum):
        inside = ((self.hertz >= 300) & (self.hertz <= 3400)).float()
        return (spectrum.abs().square() * inside).sum(-1) + 1e-9

    def features(self, spoken, seconds, ratio, background, times, plain):
        """Clean B x LENGTH, its speech's seconds, dB, which are noise alone, B x 43 first samples -> B x 43 x 232."""
        count = len(spoken)
        draw = lambda low, high: low + (high - low) * torch.rand(count, device=self.device)
        spectrum = torch.fft.rfft(spoken, self.size)
        noisy = torch.fft.rfft(self.noise(count), self.size)
        if not plain:
            spectrum = spectrum * self.equaliser(count)
            echo = torch.fft.rfft(self.echoes[torch.randint(len(self.echoes), (count,), device=self.device)], self.size)
            spectrum = torch.where((torch.rand(count, device=self.device) < 0.45)[:, None], spectrum * echo, spectrum)
            noisy = noisy * self.equaliser(count)
        gain = (self.power(spectrum) / seconds.clamp(min=0.1) / (self.power(noisy) / (LENGTH / RATE)) / 10 ** (ratio / 10)).sqrt()
        gain = torch.where(background, torch.ones_like(gain), gain)
        mixed = spectrum * (~background).float()[:, None] + noisy * gain[:, None]
        if not plain:
            pick = torch.rand(count, 1, device=self.device)
            top = torch.where(pick < 0.25, 3300 + 500 * torch.rand_like(pick), torch.full_like(pick, 9000.0))
            bottom = torch.where(pick > 0.8, 80 + 240 * torch.rand_like(pick), torch.full_like(pick, 1.0))
            mixed = mixed / (1 + (self.hertz / top) ** 16).sqrt() / (1 + (bottom / self.hertz.clamp(min=1)) ** 8).sqrt()
        sound = torch.fft.irfft(mixed, self.size)[:, :LENGTH]
        sound = sound / (sound.abs().amax(1, keepdim=True) + 1e-6) * (0.5 if plain else 10 ** draw(-1.9, -0.02)[:, None])
        if not plain:
            limit = torch.where(torch.rand(count, device=self.device) < 0.08, draw(0.15, 0.7), torch.ones(count, device=self.device))[:, None] * sound.abs().amax(1, keepdim=True)
            sound = torch.maximum(torch.minimum(sound, limit), -limit)
        floor = torch.full((count,), -4.3, device=self.device) if plain else draw(-5.0, -3.4)
        sound = sound + 10 ** floor[:, None] * torch.randn_like(sound)
        if plain:
            return normalised(columns(sound, times, self.plain))
        parts = [normalised(columns(one, at, random.choice(self.transforms))) for one, at in zip(sound.chunk(GROUPS), times.chunk(GROUPS))]
        return torch.cat(parts)

    def times(self, count, plain):
        """First samples of the columns: a timer that is late now and then, as a busy page's is."""
        step = torch.full((count, 1), HOP, device=self.device)
        if not plain:
            late = torch.rand(count, 1, device=self.device)
            step = step * torch.where(late < 0.5, 0.98 + 0.06 * torch.rand_like(late), torch.where(late < 0.9, 1 + 0.2 * torch.rand_like(late), 0.98 + 0.02 * torch.rand_like(late)))
        at = step * torch.arange(COLUMNS, device=self.device)
        if not plain:
            at = at + 90 * torch.rand(count, COLUMNS, device=self.device)
        return at.long().clamp(max=LENGTH - WINDOW - 1)

    def train(self):
        corpus, device = self.corpus, self.device
        kinds = torch.rand(BATCH, device=device)
        ids = torch.where(kinds < 0.56, torch.multinomial(corpus.drawn["key"], BATCH, True),
                          torch.where(kinds < 0.70, torch.multinomial(corpus.drawn["other"], BATCH, True), torch.multinomial(corpus.drawn["running"], BATCH, True)))
        background = kinds > 0.9
        isolated = kinds < 0.70
        label = torch.where(background, BACKGROUND, corpus.label[ids])
        times = self.times(BATCH, False)
        window = times[:, -1].float() + WINDOW
        speed = 0.82 + 0.4 * torch.rand(BATCH, device=device)
        spoken = corpus.length[ids] / speed
        room = (window - spoken - 0.04 * RATE)
        offset = torch.where(room > 0, 0.02 * RATE + room * torch.rand(BATCH, device=device), room / 2)
        # Cut at an edge: no more than half of the word is in the window, and it is nobody's.
        cut = (torch.rand(BATCH, device=device) < 0.1) & (corpus.label[ids] != UNKNOWN) & ~background
        seen = 0.2 + 0.3 * torch.rand(BATCH, device=device)
        early = torch.rand(BATCH, device=device) < 0.5
        offset = torch.where(cut, torch.where(early, -spoken * (1 - seen), window - spoken * seen), offset)
        label = torch.where(cut, UNKNOWN, label)
        # Running speech fills the window, from anywhere in it.
        inside = -torch.rand(BATCH, device=device) * (spoken - window * 0.75).clamp(min=0) + window * 0.25 * (torch.rand(BATCH, device=device) - 0.5)
        offset = torch.where(isolated, offset, inside)
        clean = corpus.piece(ids, offset, speed)
        clean = clean / (clean.abs().amax(1, keepdim=True) + 1e-4)
        # Another word beside it, cut by the window's edge.
        other = torch.multinomial(corpus.drawn["key"], BATCH, True)
        gap = (0.12 + 0.35 * torch.rand(BATCH, device=device)) * RATE
        length = corpus.length[other] / speed
        after = torch.rand(BATCH, device=device) < 0.5
        place = torch.where(after, offset + spoken + gap, offset - gap - length)
        is_cut = torch.where(after, place + 0.6 * length > window, place + 0.4 * length < 0)
        beside = isolated & ~background & ~cut & is_cut & (torch.rand(BATCH, device=device) < 0.5)
        extra = corpus.piece(other, place, speed)
        clean = clean + torch.where(beside[:, None], extra / (extra.abs().amax(1, keepdim=True) + 1e-4), torch.zeros_like(extra))
        pick = torch.rand(BATCH, device=device)
        ratio = torch.where(pick < 0.2, torch.full_like(pick, 45.0), -3 + 30 * torch.rand(BATCH, device=device))
        return self.features(clean, (spoken / RATE).clamp(max=1.0), ratio, background, times, False), label

    @torch.no_grad()
    def measure(self, model, ids, ratio):
        """Share right, in the middle of the window."""
        right = 0
        for part in torch.tensor(ids, device=self.device).split(512):
            times = self.times(len(part), True)
            window = times[:, -1].float() + WINDOW
            spoken = self.corpus.length[part].float()
            clean = self.corpus.piece(part, (window - spoken) / 2, torch.ones(len(part), device=self.device))
            clean = clean / (clean.abs().amax(1, keepdim=True) + 1e-4)
            x = self.features(clean, spoken / RATE, torch.full((len(part),), float(ratio), device=self.device), torch.zeros(len(part), dtype=torch.bool, device=self.device), times, True)
            right += int((model(x).argmax(1) == self.corpus.label[part]).sum())
        return right / len(ids)


def main():
    sound, index, out, minutes, left = sys.argv[1], sys.argv[2], sys.argv[3], float(sys.argv[4]), sys.argv[5:]
    device = torch.device("cuda")
    torch.manual_seed(1)
    random.seed(1)
    corpus = Corpus(sound, index, left, device)
    batches = Batches(corpus, bank(260, device, corpus.crowd()), rooms(200, device), device)
    digits = [at for at, row in enumerate(corpus.rows) if row[0] == "key" and row[2] in left]
    strangers = [at for at, (row, held) in enumerate(zip(corpus.rows, corpus.left)) if row[0] == "key" and held and row[2].startswith("so-")]
    model = Spotter().to(device, memory_format=torch.channels_last)
    mean = copy.deepcopy(model).eval()
    optimiser = torch.optim.AdamW(model.parameters(), 3e-3, weight_decay=0.03)
    begun, step, running = time.time(), 0, 0.0
    log = open(f"{out}.log", "w")
    while True:
        done = (time.time() - begun) / (60 * minutes)
        if done >= 1:
            break
        for one in optimiser.param_groups:
            one["lr"] = 3e-3 * min(1, (step + 1) / 300) * (0.5 + 0.5 * np.cos(np.pi * done)) + 1e-6
        x, label = batches.train()
        for _ in range(2):
            width, start = random.randint(0, 24), random.randint(0, BINS - 25)
            x[:, :, start:start + width] = 0
        width, start = random.randint(0, 4), random.randint(0, COLUMNS - 5)
        x[:, start:start + width] = 0
        with torch.autocast("cuda", torch.bfloat16):
            logits = model(x)
        loss = F.cross_entropy(logits.float(), label, label_smoothing=0.05)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(model.parameters(), 2.0)
        optimiser.step()
        step += 1
        running = 0.98 * running + 0.02 * float(loss.detach()) if step % 20 == 0 or step < 3 else running
        with torch.no_grad():
            keep = min(0.999, 1 - 1 / (step + 1))
            for a, b in zip(mean.state_dict().values(), model.state_dict().values()):
                a.mul_(keep).add_(b, alpha=1 - keep) if a.dtype.is_floating_point else a.copy_(b)
        if step % 1000 == 0:
            found = " ".join(f"{ratio}dB {batches.measure(mean, digits, ratio):.3f}/{batches.measure(mean, strangers, ratio):.3f}" for ratio in (45, 10, 0))
            print(f"{done * minutes:.1f} min step {step} loss {float(loss.detach()):.3f} {found}", file=log, flush=True)
            torch.save(mean.state_dict(), f"{out}.pt")
    print(f"end {step} " + " ".join(f"{ratio}dB {batches.measure(mean, digits, ratio):.3f}/{batches.measure(mean, strangers, ratio):.3f}" for ratio in (45, 10, 0)), file=log, flush=True)
    torch.save(mean.state_dict(), f"{out}.pt")


if __name__ == "__main__":
    main()
