"""National Electrical Code (NEC, NFPA 70), editions 2017, 2020, 2023; 2026 where it is known."""
