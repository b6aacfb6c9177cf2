using RollRide.Live;
using RollRide.Live.Answers;
using RollRide.Tests.DataFiles;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Live;

/// <summary>The live page of a copy of a shipped scenario, served from a folder of its own.</summary>
internal sealed class ServedScenario : IAsyncDisposable
{
    private readonly LiveServer _server;

    private ServedScenario(TemporaryFolder folder, string file, LiveServer server) => (Folder, File, _server) = (folder, file, server);

    /// <summary>The folder with all shipped scenarios and what they read.</summary>
    public TemporaryFolder Folder { get; }

    /// <summary>The scenario served.</summary>
    public string File { get; }

    /// <summary>The page's address.</summary>
    public Uri Address => _server.Address;

    public static async Task<ServedScenario> StartAsync(string scenario)
    {
        var folder = new TemporaryFolder();
        foreach (var path in Directory.EnumerateFiles(Shipped.PathOf("scenarios")))
            System.IO.File.Copy(path, folder[Path.GetFileName(path)]);
        return new ServedScenario(folder, folder[scenario], await ServeAsync(folder[scenario]));
    }

    /// <summary>Serves a scenario, looking at its files every few milliseconds.</summary>
    public static Task<LiveServer> ServeAsync(string path) => LiveServer.StartAsync(new LiveScenario(path), 0, TimeSpan.FromMilliseconds(10));

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        Folder.Dispose();
    }
}
