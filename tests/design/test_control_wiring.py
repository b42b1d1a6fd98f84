"""What stops an array or a battery: its tag, its circuit, its labels."""

from __future__ import annotations

import pytest

from planset.design.electrical.topology import Kind
from tests.design.electrics import HYBRID, electrical_of


def test_each_control_circuit_ends_at_what_it_stops() -> None:
    controls = electrical_of({}, HYBRID).topology.controls
    assert [(one.tag, one.start, one.end) for one in controls] == [
        ("C1", "DISC1", "INV1"),
        ("C2", "ES1", "BAT1"),
    ]
    assert [one.device.kind for one in controls] == [Kind.CONTACT, Kind.BUTTON]
    # 2 x 0.0097 sq in of 14 AWG THWN-2 in 0.304 of 1/2 in EMT (NEC chapter 9, tables 4 and 5)
    assert controls[0].fill.share == pytest.approx(0.0194 / 0.304, abs=1e-4)


def test_what_it_ends_at_names_it() -> None:
    by_tag = electrical_of({}, HYBRID).topology.by_tag
    assert "STOP INPUT: CONTROL C1" in by_tag["INV1"].ratings
    assert "AUXILIARY CONTACT AUX1: CONTROL C1" in by_tag["DISC1"].ratings


def test_every_label_calls_a_disconnect_by_one_name() -> None:
    """L1 and the directory agree on what and where the disconnect of the modules is."""
    labels = {label.name: label for label in electrical_of({}, HYBRID).labels}
    directory = " ".join(labels["directory"].lines)
    assert labels["pv_disconnect"].equipment == ("INV1",)
    assert "PHOTOVOLTAIC SYSTEM: PV SYSTEM DISCONNECT ON INV1" in directory
    assert "SOURCES DISCONNECT" in directory
    assert "EMERGENCY SHUTDOWN ES1" in directory
    purposes = {
        label.equipment: label.lines
        for label in electrical_of({}, HYBRID).labels
        if label.name == "purpose"
    }
    assert purposes["DISC1",] == ("SOURCES DISCONNECT", "PHOTOVOLTAIC SYSTEM AND ENERGY STORAGE")
