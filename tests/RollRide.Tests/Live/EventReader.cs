namespace RollRide.Tests.Live;

/// <summary>An open stream of server-sent events.</summary>
internal sealed class EventReader(HttpResponseMessage response, Stream stream, TimeSpan longest) : IDisposable
{
    private readonly StreamReader _reader = new(stream);

    /// <summary>The next line that is not empty; null at the end.</summary>
    public async Task<string?> Next()
    {
        using var stop = new CancellationTokenSource(longest);
        while (await _reader.ReadLineAsync(stop.Token) is { } line)
        {
            if (line.Length > 0)
                return line;
        }

        return null;
    }

    /// <summary>Reads up to a line.</summary>
    public async Task Expect(string line)
    {
        string? read;
        do
            read = await Next();
        while (read is not null && read != line);
        Assert.Equal(line, read);
    }

    public void Dispose()
    {
        _reader.Dispose();
        response.Dispose();
    }
}
