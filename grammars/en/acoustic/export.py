"""Writes the shipped weights: export.py ACOUSTIC.pt VOICE.pt OUT; OUT/weights.bin (8-bit integers, 16-bit floats) and OUT/model.json."""

import json
import sys
from pathlib import Path

import numpy as np
import torch

from model import KERNELS, PHONES, Acoustic, Voice


def folded(convolution, norm):
    """A convolution without bias followed by a batch norm, as one convolution: (filter, bias)."""
    scale = norm.weight / (norm.running_var + norm.eps).sqrt()
    return convolution.weight * scale[:, None, None], norm.bias - norm.running_mean * scale


def picture(filter_):
    """out x in x k, as TensorFlow.js wants it: k x 1 x in x out."""
    return filter_.permute(2, 1, 0)[:, None]


@torch.no_grad()
def main():
    model, voice = Acoustic(), Voice()
    model.load_state_dict(torch.load(sys.argv[1], map_location="cpu"))
    voice.load_state_dict(torch.load(sys.argv[2], map_location="cpu"))
    out = Path(sys.argv[3])
    tensors = {}
    front, bias = folded(model.front, model.norm)
    tensors["front.filter"], tensors["front.bias"] = picture(front), bias
    for at in range(len(KERNELS)):
        block = model.blocks[at]
        for index, part in enumerate((block.first, block.second)):
            tensors[f"block{at}.{index}.depth"] = part.depth.weight.permute(2, 1, 0)[..., None]
            point, bias = folded(part.point, part.norm)
            tensors[f"block{at}.{index}.point.filter"], tensors[f"block{at}.{index}.point.bias"] = picture(point), bias
        for name in ("squeeze", "expand"):
            layer = getattr(block, name)
            tensors[f"block{at}.{name}.matrix"], tensors[f"block{at}.{name}.bias"] = layer.weight.T, layer.bias
    tensors["head.filter"], tensors["head.bias"] = picture(model.head.weight), model.head.bias
    tensors["voice.input"], tensors["voice.inputBias"] = voice.cell.weight_ih_l0, voice.cell.bias_ih_l0
    tensors["voice.recurrent"], tensors["voice.recurrentBias"] = voice.cell.weight_hh_l0, voice.cell.bias_hh_l0
    tensors["voice.head"], tensors["voice.headBias"] = voice.head.weight[0], voice.head.bias

    entries, parts, offset = [], [], 0
    for name, tensor in tensors.items():
        flat = tensor.float().contiguous().numpy()
        entry = {"name": name, "shape": list(flat.shape), "offset": offset}
        if name.split(".")[-1] in ("filter", "depth", "matrix"):
            # 8 bits and one 16-bit scale for each channel, the last side that is not 1; the scales come first.
            channels = next(side for side in reversed(flat.shape) if side > 1)
            rows = flat.reshape(-1, channels)
            scales = (np.abs(rows).max(0) / 127 + 1e-8).astype(np.float16)
            whole = np.round(rows / np.maximum(scales.astype(np.float32), 1e-8)).clip(-127, 127).astype(np.int8)
            entry |= {"type": "int8", "channels": channels}
            data = scales.tobytes() + whole.tobytes()
        else:
            entry |= {"type": "float16"}
            data = flat.astype(np.float16).tobytes()
        data += b"\0" * (len(data) % 2)
        entries.append(entry)
        parts.append(data)
        offset += len(data)
    (out / "weights.bin").write_bytes(b"".join(parts))
    manifest = {"format": "burnerside-ear/1", "phones": list(PHONES), "tensors": entries}
    (out / "model.json").write_text(json.dumps(manifest, indent=1) + "\n")
    print(f"{offset / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
