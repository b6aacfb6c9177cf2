using System.Diagnostics;

namespace RollRide.Tests.DataFiles;

/// <summary>A disk of a few kilobytes in memory, mounted for one test, which may then be made read-only.</summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    /// <summary>Mounts it, or skips the test where this user may not.</summary>
    /// <param name="kilobytes">Its size.</param>
    public SmallDisk(int kilobytes)
    {
        Directory.CreateDirectory(Root);
        if (!OperatingSystem.IsLinux() || Run("mount", "-t", "tmpfs", "-o", $"size={kilobytes}k", "none", Root) != 0)
        {
            _folder.Dispose();
            Assert.Skip("A small disk in memory cannot be mounted here: that takes Linux, and the rights of its administrator.");
        }
    }

    /// <summary>Where it is mounted.</summary>
    public string Root => _folder["disk"];

    /// <summary>A path on it.</summary>
    public string this[string name] => Path.Combine(Root, name);

    /// <summary>The files on it with their content, by path, and the folders.</summary>
    public string[] Content =>
        [.. Directory.EnumerateFileSystemEntries(Root, "*", SearchOption.AllDirectories)
            .Select(path => $"{Path.GetRelativePath(Root, path)}: {(File.Exists(path) ? File.ReadAllText(path) : "folder")}")
            .Order(StringComparer.Ordinal)];

    /// <summary>Makes it read-only.</summary>
    public void Lock() => Assert.Equal(0, Run("mount", "-o", "remount,ro", Root));

    /// <summary>Leaves this many kilobytes free.</summary>
    public void Fill(int kilobytesLeft)
    {
        var free = new DriveInfo(Root).AvailableFreeSpace - (1024L * kilobytesLeft);
        File.WriteAllBytes(this["filling"], new byte[Math.Max(0, free)]);
    }

    public void Dispose()
    {
        Run("umount", Root);
        _folder.Dispose();
    }

    private static int Run(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!;
            process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return -1;
        }
    }
}
