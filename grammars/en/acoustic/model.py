"""The acoustic model and the voice detector, and their features. Shapes: B batch, T frames, S samples."""

import torch
import torch.nn.functional as F
from torch import nn

RATE, WINDOW, HOP, FFT, BANDS = 16_000, 400, 160, 512, 40
LOW, HIGH, FLOOR = 60.0, 7800.0, 1e-3
PHONES = ("AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH").split()
BLANK = len(PHONES)
WIDTH, KERNELS, SQUEEZE = 400, (7, 9, 11, 13, 13, 15, 15), 48


def mel(hertz):
    return 2595.0 * torch.log10(1.0 + torch.as_tensor(hertz, dtype=torch.float64) / 700.0)


def filterbank(warp=1.0):
    """FFT/2+1 x BANDS triangles on the mel scale (O'Shaughnessy's formula); `warp` moves their corners: another throat."""
    corners = 700.0 * (10.0 ** (torch.linspace(float(mel(LOW)), float(mel(HIGH)), BANDS + 2, dtype=torch.float64) / 2595.0) - 1.0)
    corners = (corners * warp).clamp(max=RATE / 2)
    bins = torch.arange(FFT // 2 + 1, dtype=torch.float64)[:, None] * RATE / FFT
    rise = (bins - corners[:-2]) / (corners[1:-1] - corners[:-2]).clamp(min=1.0)
    fall = (corners[2:] - bins) / (corners[2:] - corners[1:-1]).clamp(min=1.0)
    return torch.minimum(rise, fall).clamp(min=0.0).float()


def mel_energies(sound, banks):
    """B x S sound, full scale 1, and B x 257 x 40 banks -> B x T x 40 energies (whole frames only)."""
    pre = torch.cat([sound[:, :1], sound[:, 1:] - 0.97 * sound[:, :-1]], 1)
    window = torch.hann_window(WINDOW, periodic=True, device=sound.device)
    frames = pre.unfold(1, WINDOW, HOP) * window
    power = torch.fft.rfft(frames, FFT).abs().square() / window.square().sum()
    return torch.bmm(power, banks)


def phone_features(energies, lengths):
    """Levelled by the utterance's mean energy, log, less the utterance's mean in each band."""
    mask = (torch.arange(energies.shape[1], device=energies.device)[None] < lengths[:, None]).float()[..., None]
    level = (energies * mask).sum((1, 2), keepdim=True) / (mask.sum((1, 2), keepdim=True) * BANDS) + 1e-10
    logs = torch.log(energies / level + FLOOR)
    mean = (logs * mask).sum(1, keepdim=True) / mask.sum(1, keepdim=True)
    return (logs - mean) * mask


def voice_features(energies):
    """Nothing of the future: log energies at a fixed scale."""
    return (torch.log(energies + 1e-8) + 8.0) / 4.0


class Separable(nn.Module):
    def __init__(self, kernel):
        super().__init__()
        self.depth = nn.Conv1d(WIDTH, WIDTH, kernel, padding=kernel // 2, groups=WIDTH, bias=False)
        self.point = nn.Conv1d(WIDTH, WIDTH, 1, bias=False)
        self.norm = nn.BatchNorm1d(WIDTH)

    def forward(self, x, mask):
        return self.norm(self.point(self.depth(x * mask)))


class Block(nn.Module):
    """Two separable convolutions, a gate on each channel from its mean over the utterance, and the way round."""

    def __init__(self, kernel, dropout):
        super().__init__()
        self.first, self.second = Separable(kernel), Separable(kernel)
        self.squeeze, self.expand = nn.Linear(WIDTH, SQUEEZE), nn.Linear(SQUEEZE, WIDTH)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x, mask):
        y = self.dropout(F.relu(self.first(x, mask)))
        y = self.second(y, mask)
        mean = (y * mask).sum(2) / mask.sum(2)
        y = y * torch.sigmoid(self.expand(F.relu(self.squeeze(mean))))[..., None]
        return self.dropout(F.relu(x + y))


class Acoustic(nn.Module):
    """B x T x 40 features -> B x ceil(T/2) x 40 logits: the phones, then blank."""

    def __init__(self, dropout=0.1):
        super().__init__()
        self.front = nn.Conv1d(BANDS, WIDTH, 5, stride=2, padding=2, bias=False)
        self.norm = nn.BatchNorm1d(WIDTH)
        self.blocks = nn.ModuleList(Block(kernel, dropout) for kernel in KERNELS)
        self.head = nn.Conv1d(WIDTH, len(PHONES) + 1, 1)

    def forward(self, features, lengths):
        steps = (lengths + 1) // 2
        x = F.relu(self.norm(self.front(features.transpose(1, 2))))
        mask = (torch.arange(x.shape[2], device=x.device)[None] < steps[:, None]).to(x.dtype)[:, None]
        x = x * mask
        for block in self.blocks:
            x = block(x, mask)
        return self.head(x).transpose(1, 2), steps


class Voice(nn.Module):
    """B x T x 40 voice features -> B x T logits of a voice being there; one recurrent layer, frame by frame."""

    def __init__(self, hidden=48):
        super().__init__()
        self.cell = nn.GRU(BANDS, hidden, batch_first=True)
        self.head = nn.Linear(hidden, 1)

    def forward(self, features):
        return self.head(self.cell(features)[0])[..., 0]
