package wind

// AppendLevels appends the levels, ascending, to dst. It allocates nothing where dst has
// room.
func (p Profile) AppendLevels(dst []Level) []Level { return append(dst, p.levels...) }
