package lay

func offcuts(s *Search, t *trial) []Offcut { return nil }
