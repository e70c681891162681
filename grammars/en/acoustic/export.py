"""Writes the shipped weights: export.py ACOUSTIC.pt VOICE.pt OUT; OUT/weights.bin (16-bit floats) and OUT/model.json."""

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

    entries, values, offset = [], [], 0
    for name, tensor in tensors.items():
        flat = tensor.contiguous().numpy().astype(np.float16)
        entries.append({"name": name, "shape": list(flat.shape), "offset": offset})
        values.append(flat.ravel())
        offset += flat.size
    np.concatenate(values).tofile(out / "weights.bin")
    manifest = {"format": "burnerside-ear/1", "phones": list(PHONES), "tensors": entries}
    (out / "model.json").write_text(json.dumps(manifest, indent=1) + "\n")
    print(offset, "values", offset * 2 / 1e6, "MB")


if __name__ == "__main__":
    main()
