"""People, results, certificates: the store, its hash chain, its signatures."""
