namespace RollRide.Tests.Cli;

/// <summary>Compares a text with a stored file, or writes the file where ROLLRIDE_UPDATE_DOCS is 1.</summary>
internal static class StoredText
{
    public static void Check(string text, string path)
    {
        if (Environment.GetEnvironmentVariable("ROLLRIDE_UPDATE_DOCS") == "1")
            File.WriteAllText(path, text);
        Assert.True(File.Exists(path), $"{path} is missing; ROLLRIDE_UPDATE_DOCS=1 dotnet test RollRide.sln writes it");
        Assert.Equal(File.ReadAllText(path), text);
    }
}
