namespace RollRide.DataFiles;

/// <summary>Makes a folder and its parents where they are missing, and removes again those it made unless they are to stay.</summary>
internal sealed class NewFolders : IDisposable
{
    private readonly Stack<string> _made = new();

    /// <summary>Makes them.</summary>
    /// <param name="path">The folder's full path.</param>
    /// <exception cref="IOException">One cannot be made, or is a file.</exception>
    public NewFolders(string path)
    {
        try
        {
            Make(path);
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>Lets the folders stay.</summary>
    public void Keep() => _made.Clear();

    /// <summary>Removes the folders made, as far as they are empty.</summary>
    public void Dispose()
    {
        while (_made.TryPop(out var folder))
        {
            // Somebody else may have put files there meanwhile: they are not ours to remove.
            try
            {
                if (Directory.Exists(folder)) Directory.Delete(folder);
            }
            catch (IOException)
            {
                break;
            }
        }
    }

    private void Make(string folder)
    {
        if (Directory.Exists(folder)) return;
        if (File.Exists(folder)) throw new IOException($"“{folder}” is a file, not a folder");
        if (Path.GetDirectoryName(folder) is { } parent) Make(parent);
        Directory.CreateDirectory(folder);
        _made.Push(folder);
    }
}
