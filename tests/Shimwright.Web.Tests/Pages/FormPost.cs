using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Shimwright.Testing.Forms;

namespace Shimwright.Web.Tests.Pages;

/// <summary>A page that was fetched: its address after redirects, its status and its document.</summary>
public sealed record FetchedPage(Uri Address, System.Net.HttpStatusCode Status, IHtmlDocument Document)
{
    /// <summary>What a person reads on the page.</summary>
    public string Text => Document.QuerySelector("main")?.TextContent ?? Document.Body?.TextContent ?? "";

    /// <summary>Fetches a page, going where it is sent.</summary>
    public static async Task<FetchedPage> GetAsync(HttpClient client, string path) =>
        await FollowAsync(client, await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken));

    /// <summary>Goes where an answer sends, until there is a page.</summary>
    public static async Task<FetchedPage> FollowAsync(HttpClient client, HttpResponseMessage answer)
    {
        for (int hops = 0; hops < 10 && answer.Headers.Location is { } next && (int)answer.StatusCode is >= 301 and <= 303; hops++)
        {
            Uri target = new(answer.RequestMessage!.RequestUri!, next);
            answer.Dispose();
            answer = await client.GetAsync(target, TestContext.Current.CancellationToken);
        }

        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        IHtmlDocument document = await new HtmlParser().ParseDocumentAsync(html, TestContext.Current.CancellationToken);
        using (answer)
        {
            return new(answer.RequestMessage!.RequestUri!, answer.StatusCode, document);
        }
    }
}

/// <summary>A form of a page, filled in and sent as a browser without script would: hidden fields and what stood in the fields go along.</summary>
public sealed class FormPost
{
    private readonly HttpClient _client;
    private Uri _address;
    private readonly List<KeyValuePair<string, string>> _fields;
    private readonly List<(string Name, string FileName, byte[] Content)> _files = [];
    private readonly bool _isMultipart;

    private FormPost(HttpClient client, FetchedPage page, IHtmlFormElement form)
    {
        _client = client;
        _address = form.GetAttribute("action") is { Length: > 0 } action ? new Uri(page.Address, action) : page.Address;
        _isMultipart = form.GetAttribute("enctype") == "multipart/form-data";
        _fields = [.. FormFields.Of(form)];
    }

    /// <summary>The fields that would be sent.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> Fields => _fields;

    /// <summary>Fetches a page and takes the form with a handler's name; where several carry it, the one that a test of the form says.</summary>
    public static async Task<FormPost> OnAsync(HttpClient client, string path, string handler, Func<IHtmlFormElement, bool>? which = null) =>
        On(client, await FetchedPage.GetAsync(client, path), handler, which);

    /// <summary>Takes the form with a handler's name on a page that was fetched.</summary>
    public static FormPost On(HttpClient client, FetchedPage page, string handler, Func<IHtmlFormElement, bool>? which = null)
    {
        IHtmlFormElement[] forms = [.. page.Document.QuerySelectorAll<IHtmlFormElement>("form")
            .Where(f => f.QuerySelector("input[name=_handler]")?.GetAttribute("value") == handler && which?.Invoke(f) != false)];
        Assert.True(forms.Length > 0, $"{page.Address} ({page.Status}) has no form \"{handler}\": {page.Text}");
        return new(client, page, forms[0]);
    }

    /// <summary>Fills a field in, in place of what stood there; null leaves it out.</summary>
    public FormPost With(string name, string? value)
    {
        _fields.RemoveAll(f => f.Key == name);
        if (value is not null)
        {
            _fields.Add(new(name, value));
        }

        return this;
    }

    /// <summary>Sends to another address than the form says.</summary>
    public FormPost To(string path)
    {
        _address = new Uri(_address, path);
        return this;
    }

    /// <summary>Chooses a file.</summary>
    public FormPost WithFile(string name, string fileName, byte[] content)
    {
        _files.Add((name, fileName, content));
        return this;
    }

    /// <summary>Sends the form and returns the answer as it is.</summary>
    public async Task<HttpResponseMessage> SendAsync()
    {
        using HttpContent content = Content();
        return await _client.PostAsync(_address, content, TestContext.Current.CancellationToken);
    }

    /// <summary>Sends the form and goes where that sends.</summary>
    public async Task<FetchedPage> SubmitAsync() => await FetchedPage.FollowAsync(_client, await SendAsync());

    private HttpContent Content()
    {
        if (!_isMultipart)
        {
            return new FormUrlEncodedContent(_fields);
        }

        var content = new MultipartFormDataContent();
        foreach ((string name, string value) in _fields)
        {
            content.Add(new StringContent(value), name);
        }

        foreach ((string name, string fileName, byte[] bytes) in _files)
        {
            content.Add(new ByteArrayContent(bytes), name, fileName);
        }

        return content;
    }
}
