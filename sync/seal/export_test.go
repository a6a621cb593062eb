package seal

// Entries is the key of entries.
func (k *Keys) Entries() [32]byte { return k.entries }
