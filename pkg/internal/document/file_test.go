package document_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/document"
)

// unopened is a file system whose files cannot be opened, so that a test fails
// where one is.
type unopened struct{ fstest.MapFS }

func (u unopened) Open(string) (fs.File, error) { return nil, errors.New("opened") }

func TestReadFile(t *testing.T) {
	for _, c := range []struct {
		name, why string
		file      fstest.MapFile
		err       string // "" where it is read
	}{
		{"small", "an ordinary file", fstest.MapFile{Data: []byte("a: 1\n")}, ""},
		{"largest", "the limit itself is allowed", fstest.MapFile{Data: make([]byte, document.DefaultBytes)}, ""},
		{"too large", "one byte more is not", fstest.MapFile{Data: make([]byte, document.DefaultBytes+1)}, "1048577 bytes"},
		{"pipe", "whoever opened it might wait for ever", fstest.MapFile{Mode: fs.ModeNamedPipe}, "not a regular file"},
		{"device", "it may have no end", fstest.MapFile{Mode: fs.ModeDevice | fs.ModeCharDevice}, "not a regular file"},
		{"folder", "it has no bytes", fstest.MapFile{Mode: fs.ModeDir}, "not a regular file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{"f.yaml": &c.file}
			data, err := document.ReadFile(files, "f.yaml", document.DefaultBytes)
			if c.err == "" {
				require.NoError(t, err, c.why)
				require.Equal(t, len(c.file.Data), len(data))
				return
			}
			require.ErrorContains(t, err, c.err, c.why)
			var at *fs.PathError
			require.ErrorAs(t, err, &at)
			require.Equal(t, "f.yaml", at.Path)
			if !c.file.Mode.IsRegular() {
				_, err = document.ReadFile(unopened{files}, "f.yaml", document.DefaultBytes)
				require.NotContains(t, err.Error(), "opened", "it is refused before it is opened")
			}
		})
	}
	_, err := document.ReadFile(fstest.MapFS{}, "none.yaml", document.DefaultBytes)
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// A link to a device is judged by what it leads to.
func TestReadFileFollowsLinks(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "js" {
		t.Skip("there is no /dev/zero")
	}
	dir := t.TempDir()
	require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "z.yaml")))
	_, err := document.ReadFile(os.DirFS(dir), "z.yaml", document.DefaultBytes)
	require.ErrorContains(t, err, "not a regular file")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "sub"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "sub", "a.yaml"), nil, 0o600))
	names, err := document.Files(os.DirFS(dir), ".yaml")
	require.NoError(t, err)
	require.Equal(t, []string{"sub/a.yaml", "z.yaml"}, names, "a link to a file is a file")
	require.NoError(t, os.Symlink("sub", filepath.Join(dir, "other")))
	_, err = document.Files(os.DirFS(dir), ".yaml")
	require.EqualError(t, err, "read other: this is a link to a folder; links to folders are not followed")
}

func TestFiles(t *testing.T) {
	files := fstest.MapFS{}
	for _, name := range []string{"b.yaml", "a.YML", "sub/c.yaml", "notes.txt", ".hidden.yaml", ".git/x.yaml", "sub/.y.yaml", "d.json"} {
		files[name] = &fstest.MapFile{}
	}
	names, err := document.Files(files, ".yaml", ".yml")
	require.NoError(t, err)
	require.Equal(t, []string{"a.YML", "b.yaml", "sub/c.yaml"}, names)
	_, err = document.Files(os.DirFS(filepath.Join(t.TempDir(), "none")), ".yaml")
	require.ErrorIs(t, err, fs.ErrNotExist)
}
