"""The key-word model and its features. Shapes: B batch, 43 columns, 232 bins."""

import math

import torch
import torch.nn.functional as F
from torch import nn

RATE = 16_000
WORDS = "again eight five four high low mark minus next nine no one point seven six stop three two yes zero".split()
CLASSES = ["_background_noise_", "_unknown_", *WORDS]
COLUMNS, BINS = 43, 232
# The platform's analyser works on 2048 samples at 44,100 Hz; here the same stretch of time at 16,000 Hz, and its bins' frequencies.
ANALYSER, ANALYSER_RATE = 2048, 44_100
WINDOW = round(ANALYSER * RATE / ANALYSER_RATE)
HOP = 1024 * RATE / ANALYSER_RATE


def analyser(warp=1.0):
    """WINDOW x (2 * BINS): Blackman's window (alpha 0.16) and a Fourier transform at the analyser's bins, over its size. W3C Web Audio API."""
    time = torch.arange(WINDOW, dtype=torch.float64)
    window = 0.42 - 0.5 * torch.cos(2 * math.pi * time / WINDOW) + 0.08 * torch.cos(4 * math.pi * time / WINDOW)
    hertz = torch.arange(BINS, dtype=torch.float64) * ANALYSER_RATE / ANALYSER * warp
    phase = 2 * math.pi * time[:, None] * hertz[None] / RATE
    return (torch.cat([torch.cos(phase), torch.sin(phase)], 1) * window[:, None] / WINDOW).float()


def columns(sound, at, transform):
    """B x S sound and B x 43 first samples -> B x 43 x 232 levels in dB."""
    index = at[:, :, None] + torch.arange(WINDOW, device=sound.device)
    frames = torch.gather(sound[:, None].expand(-1, COLUMNS, -1), 2, index)
    real, imaginary = (frames @ transform).split(BINS, 2)
    return 10 * torch.log10(real.square() + imaginary.square() + 1e-20)


def normalised(decibels):
    """As the library does it: each window to mean 0 and deviation 1."""
    mean = decibels.mean((1, 2), keepdim=True)
    return (decibels - mean) / (decibels.var((1, 2), unbiased=False, keepdim=True).sqrt() + 1e-7)


# Depthwise kernel, stride, channels after it.
BLOCKS = (((3, 3), (1, 2), 64), ((3, 3), (2, 2), 96), ((3, 3), (1, 1), 128), ((3, 3), (2, 2), 160), ((3, 3), (1, 1), 160), ((1, 5), (1, 1), 128))
FRONT, FRONT_KERNEL, FRONT_STRIDE = 24, (3, 8), (1, 3)
HIDDEN = 128


class Block(nn.Module):
    def __init__(self, before, kernel, stride, after):
        super().__init__()
        self.depth = nn.Conv2d(before, before, kernel, stride, groups=before, bias=False)
        self.point = nn.Conv2d(before, after, 1, bias=False)
        self.norm = nn.BatchNorm2d(after)

    def forward(self, x):
        return F.relu(self.norm(self.point(self.depth(x))))


class Spotter(nn.Module):
    def __init__(self):
        super().__init__()
        self.front = nn.Conv2d(1, FRONT, FRONT_KERNEL, FRONT_STRIDE, bias=False)
        self.norm = nn.BatchNorm2d(FRONT)
        before, blocks = FRONT, []
        for kernel, stride, after in BLOCKS:
            blocks.append(Block(before, kernel, stride, after))
            before = after
        self.blocks = nn.ModuleList(blocks)
        self.hidden = nn.Linear(6 * before, HIDDEN)
        self.head = nn.Linear(HIDDEN, len(CLASSES))
        self.drop = nn.Dropout(0.3)

    def forward(self, x):
        """B x 43 x 232 -> B x 22 logits."""
        x = F.relu(self.norm(self.front(x[:, None])))
        for block in self.blocks:
            x = block(x)
        # Columns by columns, as TensorFlow.js lays a picture out flat.
        x = self.drop(x.permute(0, 2, 3, 1).flatten(1))
        return self.head(self.drop(F.relu(self.hidden(x))))
