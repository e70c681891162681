"""Trains the voice detector on long streams: train_voice.py CORPUS.pt START.pt OUT.pt MINUTES; a CPU is enough.

train.py knows only single utterances with half a second around them; a microphone is open for an hour. Here half a
minute of noise, or next to silence, holds none to four utterances, with pauses of up to ten seconds between them.
"""

import random
import sys
import time

import torch
import torch.nn.functional as F

from augment import Speech
from model import HOP, RATE, WINDOW, Voice, filterbank, mel_energies, voice_features
from noise import clip

SECONDS, STREAMS = 24, 12


def stream(speech, chosen, noise, device):
    """(sound, clean speech alone) of SECONDS."""
    length = SECONDS * RATE
    clean = torch.zeros(length, device=device)
    at = int(random.uniform(0, 8) * RATE)
    for one in random.sample(chosen, random.choice([0, 1, 2, 3, 4])):
        said = speech.sound[speech.starts[one]:speech.starts[one + 1]].float() / 32768
        if at + len(said) > length:
            break
        clean[at:at + len(said)] = said / (said.abs().max() + 1e-6)
        at += len(said) + int(random.choice([random.uniform(0.4, 2), random.uniform(2, 10)]) * RATE)
    ratio = random.choice([45.0, 60.0, random.uniform(-3, 28), random.uniform(-3, 28), random.uniform(-3, 28)])
    power = clean[clean != 0].square().mean() if bool((clean != 0).any()) else torch.tensor(0.03)
    start = random.randrange(len(noise) - length)
    sound = clean + noise[start:start + length] * (power / 10 ** (ratio / 10)).sqrt()
    sound = sound / (sound.abs().max() + 1e-6) * 10 ** random.uniform(-1.8, -0.05)
    return sound + 10 ** random.uniform(-5, -3.5) * torch.randn(length, device=device), clean


def main():
    path, start, out, minutes = sys.argv[1], sys.argv[2], sys.argv[3], float(sys.argv[4])
    device = torch.device("cpu")
    torch.manual_seed(2)
    random.seed(2)
    speech = Speech(path, device)
    ours = [at for at, held in enumerate(speech.held.tolist()) if not held]
    crowd = speech.crowd(ours)
    bank = [clip(2 * SECONDS * RATE, device, crowd) for _ in range(90)]
    banks = filterbank().expand(STREAMS, -1, -1)
    voice = Voice()
    voice.load_state_dict(torch.load(start, map_location="cpu"))
    optimiser = torch.optim.AdamW(voice.parameters(), 3e-3)
    begun, step = time.time(), 0
    while time.time() - begun < 60 * minutes:
        done = (time.time() - begun) / (60 * minutes)
        optimiser.param_groups[0]["lr"] = 3e-3 * max(0.03, 1 - done) * min(1, (step + 1) / 30)
        pairs = [stream(speech, ours, random.choice(bank), device) for _ in range(STREAMS)]
        sound, clean = torch.stack([a for a, _ in pairs]), torch.stack([b for _, b in pairs])
        energies = mel_energies(sound, banks)
        power = clean.unfold(1, WINDOW, HOP).square().mean(2)
        loud = torch.stack([row[row > 1e-7].quantile(0.85) if bool((row > 1e-7).any()) else torch.tensor(1.0) for row in power])
        there = F.max_pool1d((power > loud[:, None] * 10 ** -3.0).float()[:, None], 13, 1, 6)[:, 0]
        loss = F.binary_cross_entropy_with_logits(voice(voice_features(energies)), there)
        optimiser.zero_grad()
        loss.backward()
        torch.nn.utils.clip_grad_norm_(voice.parameters(), 1.0)
        optimiser.step()
        step += 1
        if step % 20 == 0:
            print(f"{done * minutes:.1f} min step {step} loss {float(loss.detach()):.3f}", flush=True)
            torch.save(voice.state_dict(), out)
    torch.save(voice.state_dict(), out)


if __name__ == "__main__":
    main()
