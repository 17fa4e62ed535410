using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace Shimwright.Storm;

/// <summary>Somebody who saves over HTTP without end, and writes down what the bench called kept.</summary>
internal sealed class Client(Uri address, string device, Ledger ledger) : IDisposable
{
    /// <summary>How many facts a save adds: half of them may never be there.</summary>
    public const int FactsEach = 2;

    private readonly HttpClient _http = Made(address, device);

    public void Dispose() => _http.Dispose();

    /// <summary>Starts a job from a file.</summary>
    public async Task<Guid> StartAsync(byte[] file)
    {
        using ByteArrayContent content = new(file);
        content.Headers.ContentType = new("application/json");
        using HttpResponseMessage answer = await _http.PostAsync(new Uri($"/api/v1/jobs/file?action={Guid.NewGuid()}", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
        JsonNode job = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
        return (job["job"]?["id"] ?? job["id"] ?? job["job"])!.GetValue<Guid>();
    }

    /// <summary>Saves until it is told to stop or nobody answers any more.</summary>
    public async Task SaveAsync(IReadOnlyList<Guid> jobs, Random random, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            if (!await SaveAsync(new Sent(Guid.NewGuid(), jobs[random.Next(jobs.Count)], $"{device} {random.Next()}")))
            {
                return;
            }
        }
    }

    /// <summary>Sends one save.</summary>
    /// <returns>Whether somebody answered.</returns>
    public async Task<bool> SaveAsync(Sent sent)
    {
        try
        {
            JsonObject body = new()
            {
                ["action"] = sent.Action,
                ["seen"] = 0,
                ["facts"] = new JsonArray(Note($"{sent.Text} a"), Note($"{sent.Text} b")),
            };
            using HttpResponseMessage answer = await _http.PostAsJsonAsync(new Uri($"/api/v1/jobs/{sent.Job}/facts", UriKind.Relative), body);
            if (answer.StatusCode == HttpStatusCode.ServiceUnavailable)
            {
                ledger.Unheard.Enqueue(sent);
                ledger.Refused++;
                return true;
            }

            if (!answer.IsSuccessStatusCode)
            {
                throw new InvalidOperationException($"{(int)answer.StatusCode}: {await answer.Content.ReadAsStringAsync()}");
            }

            ledger.Acknowledged.TryAdd(sent.Action, sent);
            return true;
        }
        catch (Exception e) when (e is HttpRequestException or IOException or TaskCanceledException)
        {
            ledger.Unheard.Enqueue(sent);
            return false;
        }
    }

    /// <summary>From an action to how many of its facts a job has.</summary>
    public async Task<IReadOnlyDictionary<Guid, int>> KeptAsync(IEnumerable<Guid> jobs)
    {
        Dictionary<Guid, int> kept = [];
        foreach (Guid job in jobs)
        {
            JsonNode sheet = (await _http.GetFromJsonAsync<JsonNode>(new Uri($"/api/v1/jobs/{job}", UriKind.Relative)))!;
            foreach (JsonNode? entry in sheet["entries"]!.AsArray())
            {
                Guid action = entry!["action"]!.GetValue<Guid>();
                kept[action] = kept.GetValueOrDefault(action) + 1;
            }
        }

        return kept;
    }

    public async Task<HttpStatusCode> HealthAsync()
    {
        using HttpResponseMessage answer = await _http.GetAsync(new Uri("/healthz", UriKind.Relative));
        return answer.StatusCode;
    }

    private static JsonObject Note(string text) => new() { ["fact"] = "note", ["text"] = text };

    private static HttpClient Made(Uri address, string device)
    {
        HttpClient http = new() { BaseAddress = address, Timeout = TimeSpan.FromSeconds(60) };
        http.DefaultRequestHeaders.Add("X-Shimwright-Device", device);
        return http;
    }
}
