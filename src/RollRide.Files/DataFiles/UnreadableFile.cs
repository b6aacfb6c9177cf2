namespace RollRide.DataFiles;

/// <summary>Turns what the system says about a file that cannot be opened into a fault of that file.</summary>
internal static class UnreadableFile
{
    public static DataFileException Report(string path, Exception cause)
    {
        var reason = cause switch
        {
            FileNotFoundException or DirectoryNotFoundException => "the file does not exist",
            UnauthorizedAccessException when Directory.Exists(path) => "this is a folder; a file is expected",
            UnauthorizedAccessException => "the file may not be read: permission is denied",
            _ => $"the file cannot be read: {cause.Message}",
        };
        return new DataFileException(new DataFileFault(path, null, null, null, reason), cause);
    }
}
