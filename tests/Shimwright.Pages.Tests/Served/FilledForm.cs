using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Shimwright.Pages.Visits;
using Shimwright.Testing.Forms;

namespace Shimwright.Pages.Tests.Served;

/// <summary>A form to send: to which address, and with what in its fields.</summary>
/// <param name="Address">Where it goes.</param>
/// <param name="Fields">Its fields, its name among them.</param>
/// <param name="Files">Its files.</param>
internal sealed record FilledForm(string Address, IReadOnlyList<KeyValuePair<string, string>> Fields, IReadOnlyDictionary<string, VisitFile> Files)
{
    /// <summary>The form's name.</summary>
    public string Name => Fields.Single(f => f.Key == SentForm.NameField).Value;

    /// <summary>The forms of a page, each as a browser without script sends it when nobody has touched it, with the first of its buttons that says something.</summary>
    public static IReadOnlyList<FilledForm> Of(string address, string html) =>
    [
        .. new HtmlParser().ParseDocument(html).QuerySelectorAll<IHtmlFormElement>("form")
            .Where(f => f.QuerySelector($"input[name={SentForm.NameField}]") is not null).Select(f => Of(address, f)),
    ];

    /// <summary>The same with other text in some fields.</summary>
    public FilledForm With(params IReadOnlyList<(string Field, string Text)> fields) =>
        this with { Fields = [.. Fields.Where(f => !fields.Any(w => w.Field == f.Key)), .. fields.Select(w => KeyValuePair.Create(w.Field, w.Text))] };

    /// <summary>The same with something in every field that is empty.</summary>
    public FilledForm Filled() => this with
    {
        Fields = [.. Fields.Select(f => f.Value.Length > 0 ? f : KeyValuePair.Create(f.Key, f.Key.Split('.')[^1] switch
        {
            "Thickness" or "From" or "To" => "2.45",
            "Diameter" => "9.48",
            "Name" or "Notes" or "By" or "Place" or "Found" => "A word <or> two",
            _ => "1",
        }))],
    };

    /// <summary>The same with a file.</summary>
    public FilledForm WithFile(string field, string name, byte[] content) =>
        this with { Files = new Dictionary<string, VisitFile> { [field] = new(name, content) } };

    /// <summary>The form as it goes to a server.</summary>
    public HttpContent ToContent()
    {
        if (Files.Count == 0)
        {
            return new FormUrlEncodedContent(Fields);
        }

        MultipartFormDataContent content = [];
        foreach ((string name, string value) in Fields)
        {
            content.Add(new StringContent(value), name);
        }

        foreach ((string name, VisitFile file) in Files)
        {
            content.Add(new ByteArrayContent(file.Content.ToArray()), name, file.Name);
        }

        return content;
    }

    private static FilledForm Of(string address, IHtmlFormElement form)
    {
        List<KeyValuePair<string, string>> fields = [.. FormFields.Of(form)];
        if (form.QuerySelector("button[name]") is { } button)
        {
            fields.Add(new(button.GetAttribute("name")!, button.GetAttribute("value") ?? ""));
        }

        return new(form.GetAttribute("action") is { Length: > 0 } action ? action : address, fields, new Dictionary<string, VisitFile>());
    }
}

/// <summary>The same form on both sides: actions are drawn anew for each.</summary>
internal sealed record TwinForm(FilledForm Served, FilledForm Visited)
{
    public string Name => Served.Name;

    /// <summary>Fills both in alike.</summary>
    public TwinForm Filled(Func<FilledForm, FilledForm> fill) => new(fill(Served), fill(Visited));
}
