"""What PyTorch makes of made-up features with the shipped weights: reference.py ACOUSTIC.pt VOICE.pt OUT.json, for the tests."""

import json
import sys
from pathlib import Path

import torch

from model import RATE, Acoustic, Voice, filterbank, mel_energies, phone_features, voice_features


@torch.no_grad()
def main():
    model, voice = Acoustic(), Voice()
    model.load_state_dict(torch.load(sys.argv[1], map_location="cpu"))
    voice.load_state_dict(torch.load(sys.argv[2], map_location="cpu"))
    model.eval(), voice.eval()
    at = torch.arange(RATE * 3 // 10, dtype=torch.float64)
    # A tone that climbs, over a hum: the test makes the same.
    sound = (0.3 * torch.sin(0.05 * at + 1e-5 * at * at) + 0.1 * torch.sin(0.02 * at)).float()[None]
    energies = mel_energies(sound, filterbank()[None])
    frames = torch.tensor([energies.shape[1]])
    features = phone_features(energies, frames)
    chances = model(features, frames)[0].log_softmax(2)[0]
    heard = torch.sigmoid(voice(voice_features(energies)))[0]
    rounded = lambda tensor: [round(value, 4) for value in tensor.flatten().tolist()]
    Path(sys.argv[3]).write_text(json.dumps({"features": rounded(features), "chances": rounded(chances), "voice": rounded(heard)}) + "\n")


if __name__ == "__main__":
    main()
