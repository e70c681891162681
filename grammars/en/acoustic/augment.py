"""From utterances to noisy batches, all on the accelerator."""

import torch

from model import FFT, HOP, RATE, WINDOW, filterbank, mel_energies
from noise import SECONDS

WARPS = [0.84 + 0.02 * step for step in range(18)]


class Speech:
    """All utterances in one tensor, drawn at random with given weights."""

    def __init__(self, path, device):
        stored = torch.load(path)
        self.device = device
        self.sound, self.starts = stored["sound"].to(device), stored["starts"].to(device)
        self.kinds, self.speakers, self.held, self.phones = stored["kinds"], stored["speakers"], stored["held"], stored["phones"]
        self.lengths = (self.starts[1:] - self.starts[:-1]).cpu()

    def stretch(self, chosen, offsets, length, speed):
        """Reads each utterance from its offset (samples) at its speed, zeros beyond its ends: B x length."""
        at = (torch.arange(length, device=self.device)[None] - offsets[:, None]) * speed[:, None]
        size = self.lengths.to(self.device)[chosen][:, None]
        inside = (at >= 0) & (at < size - 1)
        at = at.clamp(min=0)
        low = torch.minimum(at.floor().long(), size - 2)
        part = (at - low).clamp(0, 1)
        index = self.starts[chosen][:, None] + low
        value = self.sound[index].float() * (1 - part) + self.sound[index + 1].float() * part
        return torch.where(inside, value, torch.zeros((), device=self.device)) / 32768

    def crowd(self, indices):
        """speech(count, length) for babble: `count` stretches of utterances in a row."""
        def speech(count, length):
            out = []
            for _ in range(count):
                parts, total = [], 0
                while total < length:
                    one = indices[int(torch.randint(len(indices), ()))]
                    sound = self.sound[self.starts[one]:self.starts[one + 1]].float() / 32768
                    sound = sound / (sound.square().mean().sqrt() + 1e-6)
                    parts.append(sound)
                    total += len(sound)
                out.append(torch.cat(parts)[:length])
            return out
        return speech


def band_power(spectrum, hertz, low=300.0, high=3400.0):
    """Mean power in the band that signal-to-noise is measured in."""
    inside = ((hertz >= low) & (hertz <= high)).float()
    return (spectrum.abs().square() * inside).sum(-1) + 1e-9


class Augment:
    def __init__(self, speech, noises, rooms, device):
        self.speech, self.noises, self.rooms, self.device = speech, noises, rooms, device
        self.banks = torch.stack([filterbank(warp) for warp in WARPS]).to(device)
        self.plain = filterbank().to(device)

    def batch(self, chosen, snr=None):
        """Noisy mel energies, frame counts, and where there is speech (B x T), for the utterances `chosen` (a CPU tensor).

        With `snr` given (dB, None in quiet: 60) nothing else is changed: for measuring."""
        device, count = self.device, len(chosen)
        draw = lambda low, high: low + (high - low) * torch.rand(count, device=device)
        chance = lambda share: torch.rand(count, device=device) < share
        plain = snr is not None
        speed = torch.ones(count, device=device) if plain else draw(0.85, 1.18)
        lead = draw(0.1, 0.5) * RATE
        tail = draw(0.1, 0.5) * RATE
        ids = chosen.to(device)
        spoken = self.speech.lengths[chosen].to(device) / speed
        total = (lead + spoken + tail).long()
        length = int(total.max()) + WINDOW
        clean = self.speech.stretch(ids, lead, length, speed)
        size = 1 << (length + RATE // 2).bit_length()
        hertz = torch.linspace(0, RATE / 2, size // 2 + 1, device=device)
        spectrum = torch.fft.rfft(clean, size)
        where = self.activity(clean)
        if not plain:
            spectrum = spectrum * self.equaliser(hertz, count)
            echo = torch.fft.rfft(self.rooms[torch.randint(len(self.rooms), (count,), device=device)], size)
            spectrum = torch.where(chance(0.5)[:, None], spectrum * echo, spectrum)
        noise = self.noise(count, length)
        noisy = torch.fft.rfft(noise, size)
        if not plain:
            noisy = noisy * self.equaliser(hertz, count)
        ratio = torch.full((count,), float(snr), device=device) if plain else torch.where(
            chance(0.15), torch.full((count,), 45.0, device=device), draw(-6, 28))
        # Speech power over the time that it lasts; noise over all.
        share = (spoken / size).clamp(max=1)
        gain = (band_power(spectrum, hertz) / share / (band_power(noisy, hertz) / (length / size)) / 10 ** (ratio / 10)).sqrt()
        mixed = spectrum + noisy * gain[:, None]
        if not plain:
            mixed = mixed * self.channel(hertz, count)
        sound = torch.fft.irfft(mixed, size)[:, :length]
        peak = sound.abs().amax(1, keepdim=True) + 1e-6
        sound = sound / peak * (0.5 if plain else 10 ** draw(-1.6, -0.02)[:, None])
        if not plain:
            limit = torch.where(chance(0.08), draw(0.15, 0.7), torch.ones(count, device=device))[:, None] * sound.abs().amax(1, keepdim=True)
            sound = torch.maximum(torch.minimum(sound, limit), -limit)
        sound = sound + 1e-5 * torch.randn_like(sound)
        banks = self.plain.expand(count, -1, -1) if plain else self.banks[torch.randint(len(WARPS), (count,), device=device)]
        energies = mel_energies(sound, banks)
        frames = ((total - WINDOW) // HOP + 1).clamp(max=energies.shape[1])
        return energies, frames, where[:, :energies.shape[1]]

    def activity(self, clean):
        """1 where the clean speech is within 32 dB of its loud frames, widened by 60 ms on either side."""
        power = clean.unfold(1, WINDOW, HOP).square().mean(2)
        loud = torch.quantile(power, 0.9, dim=1, keepdim=True)
        there = (power > loud * 10 ** -3.2).float()
        return torch.nn.functional.max_pool1d(there[:, None], 13, 1, 6)[:, 0]

    def equaliser(self, hertz, count):
        """A smooth gain of some dB each octave, another for each utterance: microphones, hoods, distance."""
        octaves = (hertz / 60).clamp(min=1).log2() / 7.1 * 7
        points = torch.randn(count, 9, device=self.device) * 4.0 * torch.rand(count, 1, device=self.device)
        low = octaves.floor().long().clamp(max=7)
        part = octaves - low
        decibels = points[:, low] * (1 - part) + points[:, low + 1] * part
        return 10 ** (decibels / 20)

    def channel(self, hertz, count):
        """Telephone band for some, a low top for others, a rumble filter for others."""
        draw = torch.rand(count, 1, device=self.device)
        top = torch.where(draw < 0.22, 3300 + 500 * torch.rand_like(draw), torch.where(draw < 0.35, 4500 + 3000 * torch.rand_like(draw), torch.full_like(draw, 9000.0)))
        bottom = torch.where((draw < 0.12) | (draw > 0.85), 80 + 240 * torch.rand_like(draw), torch.full_like(draw, 1.0))
        return 1 / (1 + (hertz / top) ** 16).sqrt() * 1 / (1 + (bottom / hertz.clamp(min=1)) ** 8).sqrt()

    def noise(self, count, length):
        which = torch.randint(len(self.noises), (count,), device=self.device)
        start = torch.randint(SECONDS * RATE, (count,), device=self.device)
        at = (start[:, None] + torch.arange(length, device=self.device)[None]) % (SECONDS * RATE)
        return self.noises[which[:, None], at].float()


def masked(features, bands=2, widest=6, times=2, longest=10):
    """Hides stripes of bands and moments of a B x T x 40 batch."""
    count, frames, all_bands = features.shape
    out = features.clone()
    for _ in range(bands):
        width, start = torch.randint(0, widest + 1, (count, 1), device=out.device), torch.randint(0, all_bands, (count, 1), device=out.device)
        index = torch.arange(all_bands, device=out.device)[None]
        out = out.masked_fill(((index >= start) & (index < start + width))[:, None, :], 0.0)
    for _ in range(times):
        width, start = torch.randint(0, longest + 1, (count, 1), device=out.device), torch.randint(0, frames, (count, 1), device=out.device)
        index = torch.arange(frames, device=out.device)[None]
        out = out.masked_fill(((index >= start) & (index < start + width))[:, :, None], 0.0)
    return out
