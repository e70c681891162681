"""The trained model as plain floats: export.py SPOTTER.pt OUT.f32; 32-bit, little-endian, in the order in which save.ts takes them."""

import sys

import numpy as np
import torch

from model import BLOCKS


def main():
    state = {name: tensor.float().numpy() for name, tensor in torch.load(sys.argv[1], map_location="cpu").items() if not name.endswith("batches_tracked")}
    out = []

    def folded(filter_, norm):
        """A convolution and the batch norm behind it, as one with a bias."""
        scale = state[f"{norm}.weight"] / np.sqrt(state[f"{norm}.running_var"] + 1e-5)
        return filter_ * scale[:, None, None, None], state[f"{norm}.bias"] - state[f"{norm}.running_mean"] * scale

    # out x in x rows x columns -> rows x columns x in x out; depthwise -> rows x columns x in x 1.
    filter_, bias = folded(state["front.weight"], "norm")
    out += [filter_.transpose(2, 3, 1, 0), bias]
    for at in range(len(BLOCKS)):
        out.append(state[f"blocks.{at}.depth.weight"].transpose(2, 3, 0, 1))
        filter_, bias = folded(state[f"blocks.{at}.point.weight"], f"blocks.{at}.norm")
        out += [filter_.transpose(2, 3, 1, 0), bias]
    for layer in ("hidden", "head"):
        out += [state[f"{layer}.weight"].T, state[f"{layer}.bias"]]
    np.concatenate([part.reshape(-1) for part in out]).astype("<f4").tofile(sys.argv[2])


if __name__ == "__main__":
    main()
