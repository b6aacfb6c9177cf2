using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;

namespace RollRide.Live;

/// <summary>Reads requests and writes answers as JSON.</summary>
internal static class JsonBody
{
    // Depth: a state's edits hold parts of scenarios, nested less than half as deep.
    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 64 };

    // Escapes are for JSON inside HTML; this is none, and says so by its type.
    private static readonly JsonSerializerOptions Relaxed = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Reads a request's object.</summary>
    /// <exception cref="RefusedException">It is no JSON object, or is not said to be JSON.</exception>
    /// <exception cref="BadHttpRequestException">It is too large, or was not sent whole.</exception>
    public static async Task<JsonObject> Read(HttpRequest request, CancellationToken cancellation)
    {
        if (!request.HasJsonContentType())
            throw new RefusedException(StatusCodes.Status415UnsupportedMediaType, "A request is application/json.");
        return await Read(request.Body, cancellation);
    }

    private static async Task<JsonObject> Read(Stream content, CancellationToken cancellation)
    {
        try
        {
            // Texts are decoded here, while a fault in one is still a fault of the request.
            var document = await JsonNode.ParseAsync(content, documentOptions: Strict, cancellationToken: cancellation);
            Decode(document);
            return document as JsonObject ?? throw new RefusedException(StatusCodes.Status400BadRequest, "A request is one JSON object.");
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException || (e is IOException and not BadHttpRequestException))
        {
            throw new RefusedException(StatusCodes.Status400BadRequest, $"A request is one JSON object: {e.Message}");
        }
    }

    /// <summary>Reads a request's object.</summary>
    /// <exception cref="RefusedException">It is no JSON object.</exception>
    public static Task<JsonObject> Read(ReadOnlyMemory<byte> content, CancellationToken cancellation) => Read(new MemoryStream(content.ToArray(), writable: false), cancellation);

    // A node decodes its keys and texts when they are first asked for.
    private static void Decode(JsonNode? node)
    {
        if (node is JsonObject members)
        {
            foreach (var (_, member) in members)
                Decode(member);
        }
        else if (node is JsonArray items)
        {
            foreach (var item in items)
                Decode(item);
        }
        else if (node?.GetValueKind() == JsonValueKind.String)
        {
            _ = node.GetValue<string>();
        }
    }

    /// <summary>An answer as it is sent.</summary>
    public static byte[] Written(JsonObject answer) => JsonSerializer.SerializeToUtf8Bytes(answer, Relaxed);

    /// <summary>Writes an answer.</summary>
    public static Task Write(HttpResponse response, JsonObject answer, CancellationToken cancellation)
    {
        var content = Written(answer);
        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = content.Length;
        return response.Body.WriteAsync(content, cancellation).AsTask();
    }
}
