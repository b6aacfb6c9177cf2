namespace RollRide.DataFiles;

/// <summary>Says why something could not be written, without the names of files that the user never sees.</summary>
public static class WriteFault
{
    // errno on Unix, HRESULT of the same meaning on Windows.
    private const int NoSpace = 28;
    private const int ReadOnlyFileSystem = 30;
    private const int QuotaExceeded = 122;
    private const int WindowsDiskFull = unchecked((int)0x80070070);
    private const int WindowsHandleDiskFull = unchecked((int)0x80070027);
    private const int WindowsWriteProtect = unchecked((int)0x80070013);

    /// <summary>Whether an exception is about writing.</summary>
    /// <param name="exception">The exception.</param>
    public static bool Is(Exception exception) => exception is IOException or UnauthorizedAccessException;

    /// <summary>The exception for the user in place of one about writing.</summary>
    /// <param name="what">What cannot be written, as the beginning of a sentence: "The file 'a.csv'".</param>
    /// <param name="exception">What happened.</param>
    public static IOException Of(string what, Exception exception) => new($"{what} cannot be written: {Reason(exception)}.", exception);

    private static string Reason(Exception exception) => exception switch
    {
        UnauthorizedAccessException => "there is no permission to write there",
        _ => exception.HResult switch
        {
            NoSpace or WindowsDiskFull or WindowsHandleDiskFull => "the disk is full",
            QuotaExceeded => "the share of the disk is used up",
            ReadOnlyFileSystem or WindowsWriteProtect => "it lies on a disk that can only be read",
            _ => exception.Message.TrimEnd('.'),
        },
    };
}
