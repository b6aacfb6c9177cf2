namespace RollRide.Tests.Live;

/// <summary>An open stream of server-sent events.</summary>
internal sealed class EventReader(HttpResponseMessage response, Stream stream, TimeSpan longest) : IDisposable
{
    private readonly StreamReader _reader = new(stream);

    /// <summary>The next line that is not empty; null at the end.</summary>
    public async Task<string?> Next()
    {
        using var stop = new CancellationTokenSource(longest);
        return await Next(stop.Token);
    }

    /// <summary>Reads up to a line; heartbeats do not prolong the wait.</summary>
    public async Task Expect(string line)
    {
        using var stop = new CancellationTokenSource(longest);
        string? read;
        do
            read = await Next(stop.Token);
        while (read is not null && read != line);
        Assert.Equal(line, read);
    }

    public void Dispose()
    {
        _reader.Dispose();
        response.Dispose();
    }

    private async Task<string?> Next(CancellationToken stop)
    {
        while (await _reader.ReadLineAsync(stop) is { } line)
        {
            if (line.Length > 0)
                return line;
        }

        return null;
    }
}
