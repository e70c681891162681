"""A bank of synthesised noise: what burners, fans, pumps, pipes and people make, at random. All at unit mean power."""

import math

import torch

from model import RATE

SECONDS = 12


def shaped(white, gain_of):
    """White noise with a gain for each frequency in hertz."""
    spectrum = torch.fft.rfft(white)
    hertz = torch.linspace(0, RATE / 2, spectrum.shape[-1], device=white.device)
    return torch.fft.irfft(spectrum * gain_of(hertz), white.shape[-1])


def uniform(low, high):
    return low + (high - low) * float(torch.rand(()))


def coloured(length, device):
    """Hiss, roar and rumble: a tilt of -9 to +3 dB an octave and a few broad or narrow resonances."""
    tilt, knee = uniform(-1.5, 0.5), uniform(40, 400)
    bumps = [(uniform(80, 6000), uniform(0.03, 0.6), uniform(0, 12)) for _ in range(int(uniform(0, 6)))]

    def gain(hertz):
        out = (1 + hertz / knee) ** tilt
        for centre, width, height in bumps:
            out = out * (1 + height * torch.exp(-0.5 * ((hertz / centre).clamp(min=1e-3).log() / width) ** 2))
        return out

    return shaped(torch.randn(length, device=device), gain)


def swell(length, device, slowest=0.1, fastest=12.0):
    """A gain that wanders: what makes a flame or a wind unsteady."""
    wander = shaped(torch.randn(length, device=device), lambda hertz: ((hertz > slowest / 2) & (hertz < uniform(slowest, fastest))).float())
    return torch.exp(uniform(0.1, 0.9) * wander / (wander.std() + 1e-9))


def hum(length, device):
    """Mains, blowers and pumps: a base tone, its harmonics, a little drift and beating."""
    time = torch.arange(length, device=device) / RATE
    base = uniform(20, 420)
    drift = 1 + 0.01 * uniform(0, 1) * torch.sin(2 * math.pi * uniform(0.05, 0.7) * time)
    phase = 2 * math.pi * base * torch.cumsum(drift, 0) / RATE
    out = torch.zeros(length, device=device)
    fall = uniform(0.3, 1.6)
    for harmonic in range(1, 1 + int(uniform(3, 26))):
        if base * harmonic < 7600:
            out += torch.rand((), device=device) * harmonic ** -fall * torch.sin(harmonic * phase + uniform(0, 6.28))
    return out * swell(length, device, 0.1, 4)


def blades(length, device):
    """A fan: roar that beats with the blades, over its hum."""
    time = torch.arange(length, device=device) / RATE
    beat = 1 + uniform(0.1, 0.9) * torch.sin(2 * math.pi * uniform(3, 90) * time)
    return coloured(length, device) * beat + uniform(0, 0.7) * hum(length, device)


def clanks(length, device, most=18):
    """Metal on metal, drops, clicks, relays: ringing bursts."""
    out = torch.zeros(length, device=device)
    for _ in range(1 + int(uniform(1, most))):
        ring = int(uniform(0.01, 0.6) * RATE)
        time = torch.arange(ring, device=device) / RATE
        burst = torch.zeros(ring, device=device)
        for _ in range(1 + int(uniform(0, 5))):
            burst += uniform(0.2, 1) * torch.sin(2 * math.pi * uniform(150, 6500) * time + uniform(0, 6.28))
        burst = (burst + uniform(0, 1.5) * torch.randn(ring, device=device)) * torch.exp(-time / uniform(0.003, 0.15))
        at = int(uniform(0, length - ring))
        out[at:at + ring] += uniform(0.2, 1.5) * burst
    return out


def babble(length, device, speech):
    """1 to 8 people talking elsewhere; speech(count) gives that many long stretches of sound."""
    voices = speech(1 + int(uniform(0, 8)), length)
    out = sum(uniform(0.4, 1) * voice for voice in voices)
    far = uniform(1200, 7000)
    return shaped(out, lambda hertz: 1 / (1 + (hertz / far) ** 2))


def clip(length, device, speech):
    draw = uniform(0, 1)
    if draw < 0.3:
        out = coloured(length, device) * swell(length, device)
    elif draw < 0.45:
        out = blades(length, device)
    elif draw < 0.58:
        out = hum(length, device) + uniform(0, 1) * unit(coloured(length, device)) * 0.5
    elif draw < 0.7:
        out = clanks(length, device) + uniform(0.02, 0.4) * unit(coloured(length, device)) * 0.2
    elif draw < 0.85:
        out = babble(length, device, speech)
    else:
        out = sum(uniform(0.2, 1) * unit(part) for part in (coloured(length, device), hum(length, device), clanks(length, device),
                                                          babble(length, device, speech)))
    return unit(out)


def unit(sound):
    return sound / (sound.square().mean().sqrt() + 1e-9)


def bank(clips, device, speech):
    """clips x (SECONDS * RATE), 16 bit floats."""
    return torch.stack([clip(SECONDS * RATE, device, speech).half() for _ in range(clips)])


def rooms(count, device, length=RATE // 2):
    """Synthetic impulse responses: the direct sound, sparse early echoes, a tail that decays; unit energy."""
    out = []
    for _ in range(count):
        time = torch.arange(length, device=device) / RATE
        tail = torch.randn(length, device=device) * torch.exp(-6.9 * time / uniform(0.1, 0.9))
        tail *= (time > uniform(0.002, 0.03)).float() * uniform(0.02, 0.35)
        early = (torch.rand(length, device=device) < 0.003).float() * torch.randn(length, device=device) * (time < 0.05).float() * uniform(0, 0.5)
        response = tail + early
        response[0] = 1.0
        out.append(response / response.square().sum().sqrt())
    return torch.stack(out)
