using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using RollRide.Live;

namespace RollRide.Tests.Live;

/// <summary>What the live page's server lets in, what it refuses, and how it answers.</summary>
public sealed class LiveServerTests : IAsyncLifetime
{
    private ServedPage _page = null!;

    public async ValueTask InitializeAsync() => _page = await ServedPage.StartAsync();

    public ValueTask DisposeAsync() => _page.DisposeAsync();

    [Fact]
    public async Task Address_is_loopback_with_a_token_of_128_bits_that_is_new_each_time()
    {
        await using var other = await ServedPage.StartAsync();
        Assert.Equal("127.0.0.1", _page.Address.Host);
        Assert.Matches("^/[0-9a-f]{32}/$", _page.Address.AbsolutePath);
        Assert.NotEqual(_page.Address.AbsolutePath, other.Address.AbsolutePath);
    }

    [Fact]
    public async Task Address_of_the_machine_on_its_network_is_not_served()
    {
        // All of 127.0.0.0/8 is this machine (RFC 1122, 3.2.1.3): a server that listened on every address would answer here.
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Elsewhere only 127.0.0.1 is set up.");
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        await Assert.ThrowsAsync<SocketException>(() => socket.ConnectAsync(IPAddress.Parse("127.0.0.2"), _page.Address.Port));
    }

    [Theory]
    [InlineData("")]
    [InlineData("start")]
    [InlineData("page/live.html")]
    [InlineData("nothing")]
    public async Task Every_answer_carries_the_policy_that_allows_no_foreign_and_no_inline_content(string path)
    {
        using var response = await _page.Get(path);
        string Header(string name) => Assert.Single(response.Headers.GetValues(name));
        Assert.Equal(
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; font-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'",
            Header("Content-Security-Policy"));
        Assert.Equal(
            ("nosniff", "no-referrer", "no-store", "same-origin"),
            (Header("X-Content-Type-Options"), Header("Referrer-Policy"), Header("Cache-Control"), Header("Cross-Origin-Resource-Policy")));
        Assert.False(response.Headers.Contains("Server"));
        Assert.False(response.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task Page_and_its_files_come_as_what_they_are()
    {
        using var page = await _page.Get("");
        Assert.Equal("text/html; charset=utf-8", page.Content.Headers.ContentType?.ToString());
        Assert.StartsWith("<!doctype html>", await page.Content.ReadAsStringAsync(), StringComparison.OrdinalIgnoreCase);
        foreach (var (name, file) in PageFiles.All.Where(file => file.Key != PageFiles.Page))
        {
            using var response = await _page.Get($"page/{name}");
            Assert.Equal((HttpStatusCode.OK, file.Type), (response.StatusCode, response.Content.Headers.ContentType?.ToString()));
            Assert.Equal(file.Content, await response.Content.ReadAsByteArrayAsync());
        }
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/start")]
    [InlineData("/favicon.ico")]
    [InlineData("/00000000000000000000000000000000/start")]
    [InlineData("/TOKEN")]
    [InlineData("/TOKE/start")]
    [InlineData("/TOKENx/start")]
    [InlineData("/TOKEN%20/start")]
    [InlineData("/.//TOKEN/start")]
    [InlineData("/x/TOKEN/start")]
    public async Task Address_without_the_token_has_nothing(string path) =>
        await ServedPage.Refused(HttpStatusCode.NotFound, await _page.Get(Written(path)));

    [Theory] // The forms of a target that are no path (RFC 9112, 3.2.3 and 3.2.4).
    [InlineData("OPTIONS *")]
    [InlineData("CONNECT 127.0.0.1:PORT")]
    public async Task Target_that_is_no_path_has_nothing(string line)
    {
        var answer = await _page.Raw(Encoding.ASCII.GetBytes($"{Written(line)} HTTP/1.1\r\nHost: {_page.Address.Authority}\r\nConnection: close\r\n\r\n"));
        Assert.Matches("^HTTP/1.1 4", answer);
    }

    [Theory]
    [InlineData("/TOKEN/page/")]
    [InlineData("/TOKEN/page/../page/none.css")]
    [InlineData("/TOKEN/page/..%2f..%2fvan.json")]
    [InlineData("/TOKEN/page/%2e%2e/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/TOKEN/page/..\\..\\van.json")]
    [InlineData("/TOKEN/page//etc/passwd")]
    [InlineData("/TOKEN/page/live.html/")]
    [InlineData("/TOKEN/page/LIVE.CSS")]
    [InlineData("/TOKEN/Start")]
    public async Task Nothing_but_the_page_s_own_files_can_be_named(string path)
    {
        var answer = await _page.Raw(Encoding.ASCII.GetBytes($"GET {Written(path)} HTTP/1.1\r\nHost: {_page.Address.Authority}\r\nConnection: close\r\n\r\n"));
        Assert.StartsWith("HTTP/1.1 404 ", answer, StringComparison.Ordinal);
    }

    [Theory] // A name that a foreign page leads to this address (DNS rebinding) stands in Host.
    [InlineData("evil.example")]
    [InlineData("evil.example:PORT")]
    [InlineData("localhost:PORT")]
    [InlineData("127.0.0.1")]
    [InlineData("127.0.0.1:1")]
    [InlineData("127.0.0.1.evil.example:PORT")]
    [InlineData("[::1]:PORT")]
    public async Task Host_other_than_the_page_s_own_is_refused(string host) =>
        await ServedPage.Refused(HttpStatusCode.Forbidden, await _page.Get("start", ("Host", Written(host))));

    [Theory]
    [InlineData("https://evil.example")]
    [InlineData("http://evil.example:PORT")]
    [InlineData("http://127.0.0.1")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("https://127.0.0.1:PORT")]
    [InlineData("null")]
    public async Task Origin_other_than_the_page_s_own_can_neither_read_nor_write(string origin)
    {
        await ServedPage.Refused(HttpStatusCode.Forbidden, await _page.Get("start", ("Origin", Written(origin))));
        await ServedPage.Refused(HttpStatusCode.Forbidden, await _page.Post("save", "{}", ("Origin", Written(origin))));
    }

    [Theory]
    [InlineData("cross-site", HttpStatusCode.Forbidden)]
    [InlineData("same-site", HttpStatusCode.Forbidden)]
    [InlineData("same-origin", HttpStatusCode.OK)]
    [InlineData("none", HttpStatusCode.OK)]
    public async Task Site_that_the_browser_tells_must_be_the_page_s_own_or_the_user_s_hand(string site, HttpStatusCode status) =>
        Assert.Equal(status, (await _page.Get("start", ("Sec-Fetch-Site", site))).StatusCode);

    [Fact]
    public async Task Page_s_own_request_is_answered()
    {
        using var response = await _page.Post("answer", """{"id":7,"name":"Außen <b> 外側"}""", ("Origin", _page.Address.GetLeftPart(UriPartial.Authority)), ("Sec-Fetch-Site", "same-origin"));
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal("application/json; charset=utf-8", response.Content.Headers.ContentType?.ToString());
        Assert.Equal("""{"id":7,"name":"Außen <b> 外側"}""", await response.Content.ReadAsStringAsync());
    }

    [Theory]
    [InlineData("POST", "start", "GET")]
    [InlineData("PUT", "", "GET")]
    [InlineData("HEAD", "", "GET")]
    [InlineData("GET", "answer", "POST")]
    [InlineData("OPTIONS", "save", "POST")]
    [InlineData("DELETE", "events", "GET")]
    public async Task Other_methods_are_refused_with_the_one_that_is_accepted(string method, string path, string accepted)
    {
        using var response = await _page.Send(new HttpMethod(method), path);
        Assert.Equal((HttpStatusCode.MethodNotAllowed, accepted), (response.StatusCode, Assert.Single(response.Content.Headers.Allow)));
    }

    [Theory] // What a form or a script of a foreign page can send without asking first (Fetch standard: safelisted content types).
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("multipart/form-data; boundary=x")]
    [InlineData("")]
    public async Task Body_that_is_not_said_to_be_JSON_is_refused(string type) =>
        await ServedPage.Refused(HttpStatusCode.UnsupportedMediaType, await _page.PostAs("save", type, "{}"u8.ToArray()));

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("7")]
    [InlineData("""{"a":1,"a":2}""")]
    [InlineData("""{"a":"\ud800"}""")]
    [InlineData("""{"\udc00":1}""")]
    [InlineData("""{"a":NaN}""")]
    public async Task Body_that_is_no_JSON_object_is_refused(string body) =>
        await ServedPage.Refused(HttpStatusCode.BadRequest, await _page.Post("answer", body));

    [Fact]
    public async Task Body_whose_keys_or_texts_are_no_UTF8_is_refused()
    {
        foreach (var body in (byte[][])[[.. "{\"a"u8, 0xFF, .. "\":1}"u8], [.. "{\"a\":[\""u8, 0xFF, .. "\"]}"u8]])
            await ServedPage.Refused(HttpStatusCode.BadRequest, await _page.PostAs("answer", "application/json", body));
    }

    [Fact]
    public async Task Body_nested_deeper_than_any_scenario_is_refused() =>
        await ServedPage.Refused(HttpStatusCode.BadRequest, await _page.Post("answer", $$"""{"a":{{new string('[', 100_000)}}"""));

    [Fact]
    public async Task Body_of_more_than_a_megabyte_is_refused_and_one_of_less_is_read()
    {
        await ServedPage.Refused(HttpStatusCode.RequestEntityTooLarge, await _page.Post("answer", $$"""{"a":"{{new string('x', 1_000_000)}}"}"""));
        using var response = await _page.Post("answer", $$"""{"a":"{{new string('x', 990_000)}}"}""");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Theory]
    [InlineData("ffffffffffffffffff")]
    [InlineData("x")]
    [InlineData("-1")]
    public async Task Body_in_chunks_of_no_size_is_refused(string size)
    {
        var answer = await _page.Raw(Encoding.ASCII.GetBytes(
            $"POST {_page.Address.AbsolutePath}answer HTTP/1.1\r\nHost: {_page.Address.Authority}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n{size}\r\n{{}}\r\n0\r\n\r\n"));
        Assert.StartsWith("HTTP/1.1 400 ", answer, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(51, 1)]
    [InlineData(1, 20_000)]
    public async Task Headers_of_more_than_a_browser_sends_are_refused(int count, int length) =>
        Assert.Equal(
            HttpStatusCode.RequestHeaderFieldsTooLarge,
            (await _page.Get("start", [.. Enumerable.Range(0, count).Select(i => ($"x-{i}", new string('x', length)))])).StatusCode);

    [Fact]
    public async Task Request_at_fault_is_told_in_its_own_words()
    {
        using var response = await _page.Post("window", "{}");
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Equal("“state” is missing", JsonNode.Parse(await response.Content.ReadAsStringAsync())!["error"]!.GetValue<string>());
    }

    [Fact]
    public async Task Fault_of_the_program_is_told_without_a_stack_trace_and_the_next_request_is_answered()
    {
        using var fault = await _page.Post("verdict", "{}");
        Assert.Equal(HttpStatusCode.InternalServerError, fault.StatusCode);
        var told = await fault.Content.ReadAsStringAsync();
        Assert.Contains("A fault of RollRide itself", told, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", told, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await _page.Get("start")).StatusCode);
    }

    [Fact]
    public async Task Port_in_use_is_told()
    {
        var told = await Assert.ThrowsAsync<PortException>(() => LiveServer.StartAsync(new ScenarioStub(), _page.Address.Port, LiveServer.UsualTick));
        Assert.Equal($"port {_page.Address.Port} is in use by another program: give another, or leave out --port for a free one", told.Message);
    }

    private string Written(string text) => text
        .Replace("TOKEN", _page.Address.AbsolutePath.Trim('/'), StringComparison.Ordinal)
        .Replace("TOKE", _page.Address.AbsolutePath.Trim('/')[..^1], StringComparison.Ordinal)
        .Replace("PORT", $"{_page.Address.Port}", StringComparison.Ordinal);
}
