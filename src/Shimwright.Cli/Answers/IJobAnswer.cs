namespace Shimwright.Cli.Answers;

/// <summary>What a command has to say about one job, for people and for programs.</summary>
internal interface IJobAnswer
{
    int Exit { get; }

    string Json(bool indented);

    void Show(Page page);
}
