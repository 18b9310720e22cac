package render

import "blotter/ledger/disk"

// Where something is withheld, a page that would tell it may be found only
// when others are made already. So no page comes into force before every one
// has been looked through: they wait in a stage. Without a Look they are
// written at once.

// write writes one changed file, or lets it wait.
func (b *build) write(file string, data []byte) (changed bool, err error) {
	defer func() {
		if changed {
			b.listing.Lock()
			if len(b.changed) <= disk.KeepMost { // then it is the whole disk that is waited for
				b.changed = append(b.changed, file)
			}
			b.listing.Unlock()
		}
	}()
	if b.stage != nil {
		return b.stage.Write(file, data)
	}
	if err := b.mark(); err != nil {
		return false, err
	}
	if !b.files.of(file).present() {
		return true, b.out.AddSite(file, data)
	}
	return b.out.WriteSite(file, data)
}

// release puts in their place all files that wait.
func (b *build) release() error {
	if b.stage == nil || b.written.Load() == 0 {
		return nil
	}
	if err := b.mark(); err != nil {
		return err
	}
	return b.stage.Release()
}

// sweep removes temporary files that a killed build left behind.
func (b *build) sweep() error {
	for _, f := range b.temps {
		if err := b.out.Remove(f); err != nil {
			return err
		}
	}
	return nil
}
