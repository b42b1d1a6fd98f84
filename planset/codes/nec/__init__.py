"""National Electrical Code (NEC, NFPA 70), editions 2017, 2020 and 2023."""
