package document

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Files lists the files below the root of a folder whose names end in one of the
// extensions, in capitals or not, sorted. What begins with a dot is passed over:
// it belongs to an editor, or to whatever keeps the versions of the folder. A link
// to a folder is an error, so that nobody thinks that it is read.
func Files(fsys fs.FS, extensions ...string) ([]string, error) {
	var names []string
	err := fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && strings.HasPrefix(entry.Name(), "."):
			if entry.IsDir() {
				return fs.SkipDir
			}
		case entry.Type()&fs.ModeSymlink != 0 && isFolder(fsys, name):
			return &fs.PathError{Op: "read", Path: name, Err: errors.New("this is a link to a folder; links to folders are not followed")}
		case !entry.IsDir() && slices.Contains(extensions, strings.ToLower(path.Ext(name))):
			names = append(names, name)
		}
		return nil
	})
	slices.Sort(names)
	return names, err
}

func isFolder(fsys fs.FS, name string) bool {
	info, err := fs.Stat(fsys, name)
	return err == nil && info.IsDir()
}

// Open opens a regular file. Nothing else is opened: a pipe would keep the reader
// waiting, and a device may have no end. The error is an [*fs.PathError].
func Open(fsys fs.FS, name string) (fs.File, error) {
	info, err := fs.Stat(fsys, name)
	if err == nil && !info.Mode().IsRegular() {
		err = &fs.PathError{Op: "read", Path: name, Err: errors.New("this is not a regular file")}
	}
	if err != nil {
		return nil, err
	}
	return fsys.Open(name)
}

// ReadFile returns the bytes of a regular file of at most so many bytes, whose
// size is looked at before it is read. The error is an [*fs.PathError].
func ReadFile(fsys fs.FS, name string, most int) ([]byte, error) {
	file, err := Open(fsys, name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.Size() > int64(most) {
		return nil, &fs.PathError{Op: "read", Path: name,
			Err: fmt.Errorf("the file is too large to read: %s; at most %s can be read", bytesText(int(info.Size())), bytesText(most))}
	}
	// A file that grows while it is read is still one byte too long for [Read].
	return io.ReadAll(io.LimitReader(file, int64(most)+1))
}
