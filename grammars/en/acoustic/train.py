"""Trains both models: train.py CORPUS.pt OUT MINUTES. Writes OUT/acoustic.pt, OUT/voice.pt (averaged weights) and OUT/log.txt."""

import copy
import math
import sys
import time
from pathlib import Path

import torch
import torch.nn.functional as F

from augment import Augment, Speech, masked
from model import BLANK, Acoustic, Voice, phone_features, voice_features
from noise import bank, rooms

PEAK, WARMUP, DECAY = 2e-3, 500, 0.01
SECONDS_A_BATCH = 420


def draw_batches(speech, seed):
    """Batches of like lengths, drawn with replacement: real sentences a third, digits a seventh, voices the rest."""
    generator = torch.Generator().manual_seed(seed)
    weight = {"synthetic": 0.54, "sentence": 0.32, "digits": 0.14}
    counts = {kind: sum(k == kind and not h for k, h in zip(speech.kinds, speech.held.tolist())) for kind in weight}
    weights = torch.tensor([0.0 if held else weight[kind] / counts[kind] for kind, held in zip(speech.kinds, speech.held.tolist())])
    while True:
        chosen = torch.multinomial(weights, 4096, replacement=True, generator=generator)
        chosen = chosen[speech.lengths[chosen].argsort()]
        batches, now, longest = [], [], 0.0
        for one in chosen:
            longest = float(speech.lengths[one]) / 16000 / 0.9 + 0.7
            if now and longest * (len(now) + 1) > SECONDS_A_BATCH:
                batches.append(torch.stack(now))
                now = []
            now.append(one)
        for at in torch.randperm(len(batches), generator=generator):
            yield batches[int(at)]


def halves(model):
    """16 bits are enough to keep: export.py makes them 8."""
    return {name: value.half() if value.dtype.is_floating_point else value for name, value in model.state_dict().items()}


def errors(said, heard):
    """Levenshtein distance."""
    row = list(range(len(heard) + 1))
    for at, one in enumerate(said, 1):
        before, row[0] = row[0], at
        for column, other in enumerate(heard, 1):
            before, row[column] = row[column], min(row[column] + 1, row[column - 1] + 1, before + (one != other))
    return row[-1]


@torch.no_grad()
def measure(model, voice, speech, augment, kind, snr, most=240):
    """Phone error rate of the best path on held-out speakers; share of frames where the voice detector is wrong."""
    chosen = torch.tensor([at for at, (k, held) in enumerate(zip(speech.kinds, speech.held.tolist())) if k == kind and held][:most])
    wrong = total = missed = frames_seen = 0
    for part in chosen.split(40):
        energies, frames, where = augment.batch(part, snr)
        logits, steps = model(phone_features(energies, frames), frames)
        best = logits.argmax(2).cpu()
        for at, one in enumerate(part):
            path = torch.unique_consecutive(best[at, :int(steps[at])])
            said = speech.phones[int(one)].tolist()
            wrong += errors(said, [p for p in path.tolist() if p != BLANK])
            total += len(said)
        inside = torch.arange(energies.shape[1], device=energies.device)[None] < frames[:, None]
        heard = voice(voice_features(energies)) > 0
        missed += int(((heard != (where > 0.5)) & inside).sum())
        frames_seen += int(inside.sum())
    return 100 * wrong / total, 100 * missed / frames_seen


def main():
    path, out, minutes = sys.argv[1], Path(sys.argv[2]), float(sys.argv[3])
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.manual_seed(1)
    out.mkdir(parents=True, exist_ok=True)
    log = open(out / "log.txt", "a", buffering=1)
    begun = time.time()
    speech = Speech(path, device)
    ours = [at for at, held in enumerate(speech.held.tolist()) if not held]
    clips = 600 if device.type == "cuda" else 8
    augment = Augment(speech, bank(clips, device, speech.crowd(ours)), rooms(400 if device.type == "cuda" else 8, device), device)
    print(f"noise ready after {time.time() - begun:.0f} s", file=log)
    model, voice = Acoustic().to(device), Voice().to(device)
    average, calm = copy.deepcopy(model), copy.deepcopy(voice)
    plain = [p for p in model.parameters() if p.ndim < 2]
    heavy = [p for p in model.parameters() if p.ndim >= 2]
    optimiser = torch.optim.AdamW([{"params": heavy, "weight_decay": DECAY}, {"params": plain, "weight_decay": 0.0}], PEAK, betas=(0.9, 0.98))
    small = torch.optim.AdamW(voice.parameters(), 2e-3)
    begun, step, last, losses = time.time(), 0, time.time(), []
    for chosen in draw_batches(speech, 1):
        done = (time.time() - begun) / (60 * minutes)
        if done >= 1:
            break
        rate = min(1.0, (step + 1) / WARMUP) * (0.5 + 0.5 * math.cos(math.pi * done))
        for group in optimiser.param_groups:
            group["lr"] = PEAK * max(rate, 0.005)
        small.param_groups[0]["lr"] = 2e-3 * max(rate, 0.02)
        with torch.no_grad():
            energies, frames, where = augment.batch(chosen)
            features = masked(phone_features(energies, frames))
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
            logits, steps = model(features, frames)
        chances = logits.float().log_softmax(2).transpose(0, 1)
        targets = [speech.phones[int(one)] for one in chosen]
        loss = F.ctc_loss(chances, torch.cat(targets).to(device), steps, torch.tensor([len(t) for t in targets], device=device),
                          blank=BLANK, zero_infinity=True)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(model.parameters(), 2.0)
        optimiser.step()
        if step % 3 == 0:
            inside = (torch.arange(energies.shape[1], device=device)[None] < frames[:, None]).float()
            there = voice(voice_features(energies))
            missed = (F.binary_cross_entropy_with_logits(there, where, reduction="none") * inside).sum() / inside.sum()
            small.zero_grad(set_to_none=True)
            missed.backward()
            torch.nn.utils.clip_grad_norm_(voice.parameters(), 1.0)
            small.step()
        keep = min(0.9995, 1 - 1 / (1 + step / 4))
        with torch.no_grad():
            for ours_, now in ((average, model), (calm, voice)):
                for mean, value in zip(ours_.state_dict().values(), now.state_dict().values()):
                    if mean.dtype.is_floating_point:
                        mean.lerp_(value, 1 - keep)
                    else:
                        mean.copy_(value)
        step += 1
        if step % 100 == 0:
            losses.append(float(loss.detach()))
        if time.time() - last > 60:
            last = time.time()
            average.eval(), calm.eval()
            figures = " ".join(f"{kind}@{snr} {a:.1f}/{b:.1f}" for kind in ("sentence", "digits") for snr in (60, 10, 0)
                               for a, b in [measure(average, calm, speech, augment, kind, snr)])
            print(f"{(time.time() - begun) / 60:.1f} min step {step} loss {sum(losses[-10:]) / max(1, len(losses[-10:])):.3f} {figures}", file=log)
            torch.save(halves(average), out / "acoustic.pt")
            torch.save(calm.state_dict(), out / "voice.pt")
    torch.save(halves(average), out / "acoustic.pt")
    torch.save(calm.state_dict(), out / "voice.pt")
    print(f"done, {step} steps", file=log)


if __name__ == "__main__":
    main()
