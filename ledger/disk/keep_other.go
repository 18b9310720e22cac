//go:build !linux

package disk

func keepAll() bool { return false }
