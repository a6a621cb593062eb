package lay

func (s *Search) lock() error { return nil }
